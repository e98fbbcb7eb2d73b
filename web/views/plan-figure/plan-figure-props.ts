import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import type { WellMark } from '../../derived/well-marks.ts'
import type { SurfaceDrawing } from '../plan-map/layers/surface-layers.ts'

export interface PlanFigureSize {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
}

/** A change of what a symbol stands for, drawn as an arrow beside it. */
export interface PlanChange {
  /** Id of its symbol. */
  readonly symbol: string
  /** Clockwise from the top of the sheet: 180 is down, as settlement is drawn. */
  readonly bearingDegrees: number
  /** Part of the longest arrow, 0 to 1. */
  readonly share: number
  readonly text: string
}

/** A plan of the site at one instant, grid north up. */
export interface PlanFigureProps {
  readonly grid: SiteGrid
  readonly works: Works
  readonly alignments: readonly WorksAlignment[]
  readonly wells: readonly WellMark[]
  /** Least concern first. */
  readonly symbols: readonly PlanSymbol[]
  readonly levelNames: readonly string[]
  readonly atEpochMs: number
  readonly timeZone: string
  readonly showNames: boolean
  /** Contours with what they are masked by; null: none are asked for. */
  readonly surface: SurfaceDrawing | null
  readonly changes: readonly PlanChange[]
  /** Corners of what is shown; null: every symbol and the site's boundary. */
  readonly extent: readonly [lowest: SitePoint, highest: SitePoint] | null
}
