import { createSignal } from 'solid-js'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import type { ComputedString } from '../derived/ground/computed-settlement.ts'
import type { MeasuredAndComputed } from '../derived/ground/measured-and-computed.ts'
import type { SurfaceDrawing } from '../views/plan-map/layers/surface-layers.ts'

/** A surface as it was worked out, with what it is of. */
export type WorkedSurface = GroundMap & {
  readonly what: string
  /** What stands on the plan itself: what is drawn, its unit, of what. */
  readonly plate: string
  /** Settlement computed from pressures, beside what was measured; null of any other surface. */
  readonly computed: {
    readonly strings: readonly ComputedString[]
    readonly compared: readonly MeasuredAndComputed[]
  } | null
}

const [shown, setShown] = createSignal<{
  readonly drawing: SurfaceDrawing
  readonly surface: WorkedSurface
} | null>(null)
const [surfaceTrouble, setSurfaceTrouble] = createSignal<string | null>(null)

/** How far a surface is that takes more than a second, and how to stop one that takes more than five; else null. */
export interface SurfaceProgress {
  /** 0 to 1. */
  readonly share: number
  readonly stop: (() => void) | null
}
const [surfaceProgress, reportSurfaceProgress] = createSignal<SurfaceProgress | null>(null)

/** Why there is none; null while there is one, or none is wanted. */
export { reportSurfaceProgress, surfaceProgress, surfaceTrouble }

/** The surface as worked out for the clock, as the plan draws it; null while there is none. */
export const planSurface = (): SurfaceDrawing | null => shown()?.drawing ?? null

/** The same as numbers. */
export const workedSurface = (): WorkedSurface | null => shown()?.surface ?? null

export function showSurface(
  found: { readonly drawing: SurfaceDrawing; readonly surface: WorkedSurface } | null,
): void {
  setSurfaceTrouble(null)
  setShown(found)
}

export function reportSurfaceTrouble(sentence: string): void {
  setShown(null)
  setSurfaceTrouble(sentence)
}
