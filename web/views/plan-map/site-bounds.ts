import type { Position } from 'geojson'
import type { PlanMapProps } from './plan-map-props.ts'

type Box = [west: number, south: number, east: number, north: number]

/** Longitudes and latitudes that hold every symbol, and the works around them up to the boundary. */
export function siteBounds(props: Pick<PlanMapProps, 'works' | 'symbols'>): Box {
  const box: Box = [180, 90, -180, -90]
  for (const symbol of props.symbols) widen(box, [symbol.longitude, symbol.latitude])
  const boundary = props.works.features.filter((feature) => feature.properties.kind === 'boundary')
  const framing =
    boundary.length > 0
      ? boundary
      : props.works.features.filter((feature) => !wideKinds.includes(feature.properties.kind))
  if (props.symbols.length === 0 || boundary.length > 0) {
    for (const feature of framing) {
      if ('coordinates' in feature.geometry)
        eachPosition(feature.geometry.coordinates, (at) => widen(box, at))
    }
  }
  return box[0] > box[2] ? [-0.01, -0.01, 0.01, 0.01] : box
}

/** Water and long tunnels reach further than anybody works. */
const wideKinds: readonly string[] = ['dock', 'shore', 'tunnel', 'service']

function widen(box: Box, at: Position): void {
  const [longitude, latitude] = at
  if (longitude === undefined || latitude === undefined) return
  box[0] = Math.min(box[0], longitude)
  box[1] = Math.min(box[1], latitude)
  box[2] = Math.max(box[2], longitude)
  box[3] = Math.max(box[3], latitude)
}

function eachPosition(coordinates: unknown, visit: (at: Position) => void): void {
  if (!Array.isArray(coordinates)) return
  if (typeof coordinates[0] === 'number') visit(coordinates as Position)
  else for (const inner of coordinates) eachPosition(inner, visit)
}
