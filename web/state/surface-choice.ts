import { createSignal } from 'solid-js'
import { type SurfaceAspect, surfaceAspects } from '#domain/ground/surface-aspects.ts'
import { type SurfaceMethod, surfaceMethods } from '#domain/ground/surface-methods.ts'

const [surfaceMethod, setSurfaceMethod] = createSignal<SurfaceMethod>(surfaceMethods[0])
const [surfaceAspect, setSurfaceAspect] = createSignal<SurfaceAspect>(surfaceAspects[0])
const [surfaceStratum, setSurfaceStratum] = createSignal<string | null>(null)

/** How the surface on the plan is drawn between points, what of it is shown, and in which stratum its water stands; null: the first. */
export { surfaceAspect, surfaceMethod, surfaceStratum }

export function chooseSurfaceMethod(method: SurfaceMethod): void {
  setSurfaceMethod(method)
}

export function chooseSurfaceAspect(aspect: SurfaceAspect): void {
  setSurfaceAspect(aspect)
}

export function chooseSurfaceStratum(stratum: string | null): void {
  setSurfaceStratum(stratum)
}
