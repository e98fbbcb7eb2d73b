import type { SitePoint } from '../geometry/site-grid.ts'
import type { Outcome } from '../outcome.ts'
import type { ContourStep } from './contour-step.ts'
import type { Contours } from './contours.ts'
import type { GroundPoint } from './kriging/ground-point.ts'
import type { KrigedSurface } from './kriging/kriged-surface.ts'
import { surfaceByGrid } from './surface-by-grid.ts'
import { surfaceByKriging } from './surface-by-kriging.ts'
import { surfaceByLines } from './surface-by-lines.ts'
import type { SurfaceField } from './surface-field.ts'
import type { SurfaceMethod } from './surface-methods.ts'
import type { SurfaceOnLine } from './surface-on-line.ts'
import type { SurfaceVolume } from './surface-volume.ts'

export interface SurfaceRequest {
  readonly points: readonly GroundPoint[]
  readonly unit: string
  readonly method: SurfaceMethod
  readonly barriers: readonly (readonly SitePoint[])[]
  /** Straight lines between points: none is longer. */
  readonly longestSideMetres: number
  /** Kriging: around a point without a current value nothing is shown. */
  readonly silentRadiusMetres: number
  /** Nodes of the grid across the longer side. */
  readonly nodes: number
  /** A line along which the surface is cut; empty: none. */
  readonly sectionLine: readonly SitePoint[]
}

/** A surface as it is drawn, whatever made it; values in the unit of the request. */
export interface GroundSurface extends Omit<Contours, 'parameters' | 'lines'> {
  readonly unit: string
  /** How it is drawn between points in a few words, with the bearing that kriging found. */
  readonly drawnBy: string
  /** Kriging: given or fitted; null for other methods and for a flat surface. */
  readonly variogram: KrigedSurface['variogram']
  readonly lines: readonly {
    readonly level: number
    readonly points: readonly SitePoint[]
    /** False: it may as well run half a step farther away, by the standard deviation there. */
    readonly certain: boolean
  }[]
  readonly step: ContourStep | null
  /** Least and most of the standard deviation where the surface is shown; null where the method states none. */
  readonly deviation: { readonly least: number; readonly most: number } | null
  /** Whole sentences. */
  readonly notes: readonly string[]
  /** Kriging: how the points bear one another out; null for other methods. */
  readonly check: KrigedSurface['check']
  /** Between the surface and nought, in its unit times m² (mm·m² are litres). */
  readonly volume: SurfaceVolume
  /** Where it is steepest; null where nothing is shown. The slope is a mean over a piece: steeper may lie within it. */
  readonly steepest: { readonly place: SitePoint; readonly perMetre: number } | null
  readonly section: readonly SurfaceOnLine[]
}

/** With its values at the nodes of a grid, worked out when asked for. */
export interface SurfaceWithField extends GroundSurface {
  readonly field: () => SurfaceField
}

/**
 * Contours of a surface through points, in steps that yield the share done, so that whoever runs them can stop between
 * two. Kriging that is refused (a variogram that cannot be fitted, say) is not replaced in silence: straight lines
 * between points are drawn with the reason first, or refused themselves.
 */
export function* groundSurfaceSteps(request: SurfaceRequest): Generator<number, Outcome<SurfaceWithField>> {
  switch (request.method) {
    case 'linear':
      return surfaceByLines(request, [])
    case 'kriging':
      return yield* surfaceByKriging(request, 'ordinary')
    case 'kriging-plane':
      return yield* surfaceByKriging(request, 'universal')
    case 'natural-neighbours':
      return yield* surfaceByGrid(request, 'natural neighbours')
    case 'inverse-distance':
      return yield* surfaceByGrid(request, 'inverse distance')
  }
}
