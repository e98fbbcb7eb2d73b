import type { LngLat } from './site-grid.ts'

/**
 * Zone 1 to 60 of the Universal Transverse Mercator grid at a place, with the two exceptions of the standard: south-west
 * Norway (56° to 64° N, 3° to 6° E lies in 32) and Svalbard (72° to 84° N: 31, 33, 35 and 37 only).
 */
export function utmZone([longitude, latitude]: LngLat): number {
  const east = ((((longitude + 180) % 360) + 360) % 360) - 180
  if (latitude >= 56 && latitude < 64 && east >= 3 && east < 12) return 32
  if (latitude >= 72 && latitude < 84 && east >= 0 && east < 42)
    return east < 9 ? 31 : east < 21 ? 33 : east < 33 ? 35 : 37
  return Math.floor((east + 180) / 6) + 1
}

/** EPSG code of that zone on WGS 84, such as EPSG:32630 north of the equator, EPSG:32730 south. */
export function utmCrs(position: LngLat): string {
  return `EPSG:32${position[1] < 0 ? 7 : 6}${String(utmZone(position)).padStart(2, '0')}`
}
