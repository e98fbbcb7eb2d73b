import { createSignal } from 'solid-js'
import type { SurfaceDrawing } from '../views/plan-map/layers/surface-layers.ts'

const [planSurface, setPlanSurface] = createSignal<SurfaceDrawing | null>(null)
const [surfaceTrouble, setSurfaceTrouble] = createSignal<string | null>(null)

/** Contours as worked out for the clock, or the change between two instants; null while there are none. */
export { planSurface, surfaceTrouble }

export function showSurface(surface: SurfaceDrawing | null): void {
  setSurfaceTrouble(null)
  setPlanSurface(surface)
}

export function reportSurfaceTrouble(sentence: string): void {
  setPlanSurface(null)
  setSurfaceTrouble(sentence)
}
