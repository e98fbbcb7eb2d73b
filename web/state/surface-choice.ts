import { createSignal } from 'solid-js'
import { type SurfaceMethod, surfaceMethods } from '#domain/ground/surface-methods.ts'

const [surfaceMethod, setSurfaceMethod] = createSignal<SurfaceMethod>(surfaceMethods[0])
const [surfaceStratum, setSurfaceStratum] = createSignal<string | null>(null)

/** How the surface on the plan is drawn between points, and in which stratum its water stands; null: the first. */
export { surfaceMethod, surfaceStratum }

export function chooseSurfaceMethod(method: SurfaceMethod): void {
  setSurfaceMethod(method)
}

export function chooseSurfaceStratum(stratum: string | null): void {
  setSurfaceStratum(stratum)
}
