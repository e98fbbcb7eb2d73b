import { normalShare } from './error-function.ts'
import { dayMs, programme } from './programme.ts'

export const tunnel = {
  axisNorthingMetres: 309_946,
  startEastingMetres: 500_120,
  endEastingMetres: 499_900,
  metresPerDay: 10,
  axisDepthMetres: 14,
  diameterMetres: 3.4,
  volumeLoss: 0.01,
} as const

/** Trough width i, metres, at a depth below ground: Mair et al. 1993. */
export const troughWidthMetres = (depthMetres: number): number =>
  tunnel.axisDepthMetres * (0.175 + 0.325 * (1 - depthMetres / tunnel.axisDepthMetres))

/** Settlement over the axis, mm, when the tunnel has long passed: volume of the trough is the volume lost. */
export function finalMillimetres(depthMetres: number): number {
  const lostM2 = (tunnel.volumeLoss * Math.PI * tunnel.diameterMetres ** 2) / 4
  return (1000 * lostM2) / (Math.sqrt(2 * Math.PI) * troughWidthMetres(depthMetres))
}

/** Settlement by the tunnel, mm: Gaussian across it, cumulative normal along it (Attewell and Woodman 1982, from memory). */
export function tunnelMillimetres(
  eastingMetres: number,
  northingMetres: number,
  depthMetres: number,
  epochMs: number,
): number {
  const days = (epochMs - programme.tunnelFrom) / dayMs
  if (days <= 0) return 0
  const { startEastingMetres: start, endEastingMetres: end } = tunnel
  const face = Math.max(end, start - tunnel.metresPerDay * days)
  const width = troughWidthMetres(depthMetres)
  const across = (northingMetres - tunnel.axisNorthingMetres) / width
  const along = normalShare((eastingMetres - face) / width) - normalShare((eastingMetres - start) / width)
  return finalMillimetres(depthMetres) * Math.exp((-across * across) / 2) * along
}
