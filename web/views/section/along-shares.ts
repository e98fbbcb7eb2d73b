import type { SitePoint } from '#domain/geometry/site-grid.ts'

/** How much of a movement along A and along B (A turned 90° clockwise) shows along the line's nearest piece. */
export function alongShares(
  line: readonly SitePoint[],
  at: SitePoint,
  axisBearingDegrees: number,
): { a: number; b: number } | null {
  let nearest: { away: number; bearing: number } | null = null
  for (let place = 0; place + 1 < line.length; place++) {
    const from = line[place] as SitePoint
    const to = line[place + 1] as SitePoint
    const length = Math.hypot(to[0] - from[0], to[1] - from[1])
    if (length === 0) continue
    const along = ((at[0] - from[0]) * (to[0] - from[0]) + (at[1] - from[1]) * (to[1] - from[1])) / length
    const held = Math.min(Math.max(along, 0), length) / length
    const away = Math.hypot(
      at[0] - from[0] - held * (to[0] - from[0]),
      at[1] - from[1] - held * (to[1] - from[1]),
    )
    if (!nearest || away < nearest.away)
      nearest = { away, bearing: Math.atan2(to[0] - from[0], to[1] - from[1]) }
  }
  if (!nearest) return null
  const turn = (axisBearingDegrees * Math.PI) / 180 - nearest.bearing
  return { a: Math.cos(turn), b: Math.cos(turn + Math.PI / 2) }
}
