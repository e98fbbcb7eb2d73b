import { createSignal } from 'solid-js'

/** Where the plan looks. Null: the whole site. */
export interface MapView {
  readonly longitude: number
  readonly latitude: number
  readonly zoom: number
  /** Clockwise from north. */
  readonly bearingDegrees: number
}

const [mapView, setMapView] = createSignal<MapView | null>(null)

export { mapView }

export function lookAt(view: MapView | null): void {
  setMapView(view)
}
