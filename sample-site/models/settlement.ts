import { consolidationMillimetres } from './consolidation.ts'
import { leakMillimetres } from './leak.ts'
import { tunnelMillimetres } from './tunnel.ts'
import { wallSettlementMillimetres } from './wall.ts'

const groundLevelMetres = 4.6

/** Settlement of the ground, mm, downwards positive: wall, consolidation, tunnel and leak add up. */
export function settlementMillimetres(
  eastingMetres: number,
  northingMetres: number,
  depthMetres: number,
  epochMs: number,
): number {
  // Wall and leak die out with depth within the made ground and clay; anchors stand outside both.
  const shallow = Math.max(0, 1 - depthMetres / 6)
  return (
    consolidationMillimetres(eastingMetres, northingMetres, groundLevelMetres - depthMetres, epochMs) +
    tunnelMillimetres(eastingMetres, northingMetres, depthMetres, epochMs) +
    shallow * wallSettlementMillimetres(eastingMetres, northingMetres, epochMs) +
    shallow * leakMillimetres(eastingMetres, northingMetres, epochMs)
  )
}

/** Lean of a wall on that ground towards the south, degrees: −dS/dN. */
export function leanDegrees(eastingMetres: number, northingMetres: number, epochMs: number): number {
  const step = 0.25
  const north = settlementMillimetres(eastingMetres, northingMetres + step, 0, epochMs)
  const south = settlementMillimetres(eastingMetres, northingMetres - step, 0, epochMs)
  return Math.atan((south - north) / (2 * step) / 1000) * (180 / Math.PI)
}
