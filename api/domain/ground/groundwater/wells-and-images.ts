import { type Aquifer, drawdownMetres } from './drawdown.ts'

/** A well in plan with its changes of rate; positive takes water out. */
export interface PumpedWell {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  /** Above 0: nearer than it, the drawdown is that at the well's wall. */
  readonly radiusMetres: number
  /** In force from an instant on, until the next. */
  readonly rates: readonly { readonly from: number; readonly ratePerTime: number }[]
}

/** A straight boundary through two points: a river or lake holds the level, a wall or fault lets nothing through. */
export interface WaterBoundary {
  readonly kind: 'held level' | 'no flow'
  readonly from: readonly [eastingMetres: number, northingMetres: number]
  readonly to: readonly [eastingMetres: number, northingMetres: number]
}

/**
 * The image of a well in a boundary: mirrored, with its rates turned round where the level is held. Together they keep
 * the level still, or let nothing through, all along the boundary. For one boundary; two need images of images.
 */
export function imageOf(well: PumpedWell, { kind, from, to }: WaterBoundary): PumpedWell {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  const along =
    ((well.eastingMetres - from[0]) * dx + (well.northingMetres - from[1]) * dy) / (dx * dx + dy * dy)
  const sign = kind === 'held level' ? -1 : 1
  return {
    id: `image of ${well.id}`,
    eastingMetres: 2 * (from[0] + along * dx) - well.eastingMetres,
    northingMetres: 2 * (from[1] + along * dy) - well.northingMetres,
    radiusMetres: well.radiusMetres,
    rates: well.rates.map((rate) => ({ ...rate, ratePerTime: sign * rate.ratePerTime })),
  }
}

/**
 * Drawdown, m, at a place and an instant by all wells together, each change of rate as one more well (superposition;
 * holds for a confined layer).
 */
export function drawdownOfWells(
  aquifer: Aquifer,
  wells: readonly PumpedWell[],
  at: { readonly eastingMetres: number; readonly northingMetres: number; readonly time: number },
): number {
  let sum = 0
  for (const well of wells) {
    const away = Math.hypot(at.eastingMetres - well.eastingMetres, at.northingMetres - well.northingMetres)
    const radius = Math.max(away, well.radiusMetres)
    let before = 0
    for (const { from, ratePerTime } of well.rates.toSorted((one, other) => one.from - other.from)) {
      sum += drawdownMetres(aquifer, ratePerTime - before, radius, at.time - from)
      before = ratePerTime
    }
  }
  return sum
}
