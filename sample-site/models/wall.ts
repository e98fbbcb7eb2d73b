import { dayMs, programme, shareDone } from './programme.ts'

const wallMetres = 22.6
/** Offset behind the wall in metres, settlement in mm at stage 3: concave, after Hsieh and Ou 1998. */
const concave = [
  [0, 8],
  [6.5, 16],
  [12, 12],
  [26, 1.7],
  [52, 0],
] as const

/** Deflection of the wall into the box, mm, at a depth below ground, metres. */
export function wallDeflectionMillimetres(depthMetres: number, epochMs: number): number {
  const [first, second, third] = stageShares(epochMs)
  const bulge = 8 * first + 6 * second + 8 * third
  const bulgeDepth = 5 + 2 * second + 2 * third
  const away = depthMetres - bulgeDepth
  return bulge * Math.exp((-away * away) / 50) + 4 * first * (1 - depthMetres / wallMetres)
}

/**
 * Movement of the ground behind the wall towards the box, mm: as that of the wall as far down again as the ground is
 * behind it, along a line at 45° (undrained, after Bransby and Milligan 1975).
 */
export function groundDeflectionMillimetres(
  offsetMetres: number,
  depthMetres: number,
  epochMs: number,
): number {
  const onWallMetres = depthMetres + offsetMetres
  const [first] = stageShares(epochMs)
  // The lean of the wall ends at its toe.
  const belowToe = onWallMetres > wallMetres ? 4 * first * (1 - onWallMetres / wallMetres) : 0
  return wallDeflectionMillimetres(onWallMetres, epochMs) - belowToe
}

/** Settlement of the ground south of the box by movement of the wall, mm; nothing inside or north of it. */
export function wallSettlementMillimetres(
  eastingMetres: number,
  northingMetres: number,
  epochMs: number,
): number {
  const offset = 310_000 - northingMetres
  if (offset < 0 || offset >= 52) return 0
  const [first, second, third] = stageShares(epochMs)
  const share = (8 * first + 6 * second + 8 * third) / 22
  if (share === 0) return 0
  return concaveMillimetres(offset) * share * alongWall(eastingMetres)
}

/** Stage 3 trough at an offset behind the middle of the wall. */
export function concaveMillimetres(offsetMetres: number): number {
  for (let i = 1; i < concave.length; i++) {
    const [outer, outerValue] = concave[i] as readonly [number, number]
    const [inner, innerValue] = concave[i - 1] as readonly [number, number]
    if (offsetMetres <= outer)
      return innerValue + ((offsetMetres - inner) / (outer - inner)) * (outerValue - innerValue)
  }
  return 0
}

/** Less at the corners, dying out beyond the ends of the box. */
function alongWall(eastingMetres: number): number {
  const inside = Math.min(eastingMetres - 500_000, 500_120 - eastingMetres)
  return inside >= 0 ? 1 - 0.3 * Math.exp(-inside / 15) : 0.7 * Math.exp(-((inside / 15) ** 2))
}

/** Nine tenths of the movement comes with the dig, the rest creeps in over three weeks. */
function stageShares(epochMs: number): readonly [number, number, number] {
  return [programme.stage1, programme.stage2, programme.stage3].map((stage) => {
    const after = (epochMs - stage.until) / dayMs
    return 0.92 * shareDone(epochMs, stage) + (after > 0 ? 0.08 * (1 - Math.exp(-after / 20)) : 0)
  }) as unknown as readonly [number, number, number]
}
