import type { LngLat, SiteGrid } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import type { AlertMark } from '../../derived/alerts/alert-marks.ts'
import type { CoverageMark } from '../../derived/coverage-marks.ts'
import type { NoteMark } from '../../derived/note-marks.ts'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import type { DeliveryDrawing } from '../../derived/radio/delivery-drawing.ts'
import type { NeighbourDrawing } from '../../derived/review/neighbour-drawing.ts'
import type { WellMark } from '../../derived/well-marks.ts'
import type { Palette } from '../../ui/palettes.ts'
import type { OwnMark } from './layers/own-position-layers.ts'
import type { PlannedMarks } from './layers/planned-layers.ts'
import type { RadioMark } from './layers/radio-layers.ts'
import type { SurfaceDrawing } from './layers/surface-layers.ts'

/** Where the plan looks. */
export interface PlanView {
  readonly longitude: number
  readonly latitude: number
  readonly zoom: number
  readonly bearingDegrees: number
}

/** Everything the plan draws. Parts that have not changed must be the same objects as before. */
export interface PlanMapProps {
  readonly site: string
  readonly palette: Palette
  /** How many times larger than at a desk symbols and names are drawn. */
  readonly scale: number
  /** No text of the plan is smaller, CSS pixels; 0 at a desk. */
  readonly leastTextPixels: number
  /** A board on a wall: it is not moved by dragging, which leads to the next board; no ticks and no buttons. */
  readonly isBoard: boolean
  /** Null until it has been fetched: no ticks and chainages so long. */
  readonly grid: SiteGrid | null
  readonly works: Works
  /** Shown with the works. */
  readonly wells: readonly WellMark[]
  readonly showWorks: boolean
  /** Names of measuring points and works; on a board only those of points that are selected or at a level. */
  readonly showNames: boolean
  readonly atEpochMs: number
  readonly levels: number
  readonly symbols: readonly PlanSymbol[]
  readonly selectedId: string | null
  readonly surface: SurfaceDrawing | null
  readonly radio: readonly RadioMark[]
  readonly coverage: readonly CoverageMark[]
  readonly notes: readonly NoteMark[]
  /** Frames of open alerts. */
  readonly alerts: readonly AlertMark[]
  readonly delivery: DeliveryDrawing | null
  /** Around the series reviewed. */
  readonly neighbours: NeighbourDrawing | null
  /** What somebody thinks of putting up or moving. */
  readonly planned: PlannedMarks | null
  /** Null: not known or not used. */
  readonly ownPosition: OwnMark | null
  readonly sectionLine: readonly LngLat[]
  readonly drawingSection: boolean
  /** Symbols that are picked for something, with the sign beside each; null: a tap selects. */
  readonly picked: ReadonlyMap<string, string> | null
  /** Outline of an area that is reviewed; empty: none. */
  readonly area: readonly LngLat[]
  /** What the line being tapped is of; a gateway is one place. */
  readonly drawingOf: 'section' | 'obstruction' | 'gateway' | 'patch'
  /** Null: the whole site. */
  readonly view: PlanView | null
  /** A few words on a symbol, for the card beside it: name first. */
  readonly describe: (symbol: PlanSymbol) => readonly string[]
}

export interface PlanMapCallbacks {
  select(id: string | null): void
  /** A symbol was tapped, or Enter pressed on it, while some are being picked. */
  pick(id: string): void
  /** Enter on the plan: the record of what is selected is wanted. */
  openSelected(): void
  /** Null: the whole site is wanted. */
  viewChanged(view: PlanView | null): void
  /** One corner for a gateway, two or more for a line. */
  lineDrawn(corners: readonly LngLat[]): void
  lineGivenUp(): void
  /** Every point has been drawn with its state for the first time. */
  coloured(): void
  /** The graphics memory was taken away: this plan is of no more use and must be made anew. */
  contextLost(): void
}
