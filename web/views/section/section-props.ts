import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import type { Hole } from '#domain/geometry/hole.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import type { InstrumentKind, Measure } from '#domain/site/vocabulary.ts'
import type { WellMark } from '../../derived/well-marks.ts'
import type { Standing } from '../../ui/state-scale.ts'

export interface SectionHole extends Hole {
  readonly id: string
  readonly lengthMetres: number
  readonly strata: readonly {
    readonly name: string
    readonly topLevelMetres: number
    readonly baseLevelMetres: number
  }[]
}

export interface SectionPoint {
  readonly point: string
  readonly kind: InstrumentKind
  readonly measure: Measure | null
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly levelMetres: number
  /** Null: not stated. */
  readonly stratum: string | null
  readonly standing: Standing
  readonly value: number | null
  readonly unit: string
  readonly decimals: number
  /** Since its reading, at the clock; null without one. */
  readonly ageMs: number | null
  /** Without current data, whatever level it stands at. */
  readonly silent: boolean
  /** What persons found of its value, what it was made without and what checks noticed, in a few words each. */
  readonly notes: readonly string[]
}

/** A casing's deflection in the plane of the section, positive towards growing chainage. */
export interface SectionShape {
  readonly instrument: string
  readonly hole: Hole
  readonly late: boolean
  readonly places: readonly { readonly depthMetres: number; readonly alongMillimetres: number }[]
}

/** Everything that the section shows. Levels are metres on the site's datum, up positive. */
export interface SectionProps {
  /** Corners in order of chainage, site grid. Fewer than two: nothing to draw yet. */
  readonly line: readonly SitePoint[]
  readonly grid: SiteGrid
  readonly datum: string
  readonly groundLevelMetres: number
  /** The one that holds for the whole site. */
  readonly waterUnitWeightKnPerM3: number
  readonly works: Works
  readonly alignments: readonly WorksAlignment[]
  readonly holes: readonly SectionHole[]
  readonly points: readonly SectionPoint[]
  readonly shapes: readonly SectionShape[]
  readonly wells: readonly WellMark[]
  readonly clockEpochMs: number
  readonly timeZone: string
  /** Holes and points farther from the line than this are left out. */
  readonly offsetLimitMetres: number
  readonly trueScale: boolean
  /** Layers are taken as known between holes that stand no farther apart; farther, their joins are guesses. */
  readonly joinLayersWithinMetres: number
  /** How many times settlement and deflection are drawn larger than levels are. */
  readonly movementExaggeration: number
  readonly levelCount: number
  readonly selectedPoint: string | null
  readonly remarks: readonly string[]
  readonly waiting: boolean
}

export interface SectionEvents {
  readonly onSelectPoint: (point: string) => void
  readonly onTrueScale: (trueScale: boolean) => void
  readonly onOffsetLimit: (metres: number) => void
  readonly onJoinLayersWithin: (metres: number) => void
  readonly onMovementExaggeration: (times: number) => void
}
