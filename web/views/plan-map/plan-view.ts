import type * as maplibregl from 'maplibre-gl'
import type { PlanView } from './plan-map-props.ts'

/** Where the map is put to look so. */
export function cameraOf(view: PlanView): maplibregl.JumpToOptions {
  return { center: [view.longitude, view.latitude], zoom: view.zoom, bearing: view.bearingDegrees }
}

/** Alike to what an address can carry. */
export function sameView(left: PlanView | null, right: PlanView | null): boolean {
  if (left === null || right === null) return left === right
  return (
    Math.abs(left.longitude - right.longitude) < 1e-6 &&
    Math.abs(left.latitude - right.latitude) < 1e-6 &&
    Math.abs(left.zoom - right.zoom) < 0.006 &&
    Math.abs(left.bearingDegrees - right.bearingDegrees) < 0.06
  )
}
