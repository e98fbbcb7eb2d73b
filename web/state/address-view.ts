import type { MapView } from './map-view.ts'

/** Longitude, latitude, zoom and bearing, commas between. */
export function writeView(view: MapView): string {
  const numbers = [
    view.longitude.toFixed(6),
    view.latitude.toFixed(6),
    view.zoom.toFixed(2),
    view.bearingDegrees.toFixed(1),
  ]
  return numbers.join(',')
}

/** Null: the whole site, and where it cannot be read. */
export function readView(text: string): MapView | null {
  const [longitude, latitude, zoom, bearingDegrees] = text.split(',').map(Number)
  if (longitude === undefined || latitude === undefined || zoom === undefined) return null
  if (bearingDegrees === undefined) return null
  if (!(Math.abs(longitude) <= 180 && Math.abs(latitude) <= 90 && zoom >= 0 && zoom <= 24)) return null
  return Number.isFinite(bearingDegrees) ? { longitude, latitude, zoom, bearingDegrees } : null
}
