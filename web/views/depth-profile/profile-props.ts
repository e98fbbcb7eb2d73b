import type { InstrumentKind } from '#domain/site/vocabulary.ts'
import type { Standing } from '../../ui/state-scale.ts'

export interface ProfilePoint {
  readonly point: string
  readonly depthMetres: number
  readonly levelMetres: number
}

/** What a point said at or before a curve's instant. */
export interface ProfileReading {
  readonly point: string
  readonly value: number | null
  readonly atEpochMs: number | null
  /** Older than its limit at the curve's instant. */
  readonly late: boolean
  readonly standing: Standing
  /** The point without current data through which this value is added up or told; absent or null: it is current. */
  readonly lateThrough?: string | null
}

/** A value that is not of now: its own reading is late, or it is told through one that is. */
export const isNotCurrent = ({ late, lateThrough }: ProfileReading): boolean => late || lateThrough != null

export interface ProfileCurve {
  /** `At the clock`, `Baseline`, or the date itself. */
  readonly heading: string
  readonly atEpochMs: number
  readonly readings: readonly ProfileReading[]
}

export interface ProfileStratum {
  readonly name: string
  readonly topLevelMetres: number
  readonly baseLevelMetres: number
}

/** Stresses at the tips of a string, kPa, compression positive. */
export interface ProfileStresses {
  /** Corners of total vertical stress by depth, from the collar down. */
  readonly places: readonly { readonly levelMetres: number; readonly kpa: number }[]
  readonly total: ReadonlyMap<string, number>
  /** Effective, a curve each, by tip; without a tip where it is not known. */
  readonly effective: readonly ReadonlyMap<string, number>[]
}

/** Strain of the ground above an anchor, mm/m, lengthening positive. */
export interface ProfileStrain {
  readonly point: string
  /** The anchor above, or the head. */
  readonly above: string
  readonly topLevelMetres: number
  readonly baseLevelMetres: number
  /** A curve each; null where none was read. */
  readonly readings: readonly (ProfileReading | null)[]
}

/** Everything that the profile by depth shows. Levels are metres on the site's datum, up positive. */
export interface DepthProfileProps {
  readonly instrument: string
  readonly kind: InstrumentKind
  readonly valueName: string
  readonly unit: string
  readonly decimals: number
  readonly datum: string
  readonly timeZone: string
  readonly collarLevelMetres: number
  readonly points: readonly ProfilePoint[]
  /** The clock's first; the rest as they were added. */
  readonly curves: readonly ProfileCurve[]
  readonly strata: readonly ProfileStratum[]
  /** Line of pressure at rest, for a string of tips; the sentence says where its level comes from. */
  readonly water: {
    readonly levelMetres: number
    readonly unitWeightKnPerM3: number
    readonly sentence: string
  } | null
  /** Total and effective stress at the tips; absent or null where not told. */
  readonly stresses?: ProfileStresses | null
  /** Strain between anchors, from the head down; absent where not told. */
  readonly strains?: readonly ProfileStrain[]
  /** What the design expects by the end of a works stage, from the top down; null where nothing is stated. */
  readonly expected: {
    readonly places: readonly {
      readonly levelMetres: number
      readonly low: number
      readonly high: number
    }[]
    /** At the points between them. */
    readonly atPoints: ReadonlyMap<string, { readonly low: number; readonly high: number }>
    readonly sentence: string
  } | null
  /** A place that is still by agreement, drawn at value 0: the head, an anchor, the toe. */
  readonly still: { readonly levelMetres: number; readonly sentence: string } | null
  /** Points joined down the hole (anchors, segments) or each on its own (tips in different layers). */
  readonly joined: boolean
  readonly positiveMeans: string
  readonly levels: readonly { readonly name: string; readonly value: number; readonly level: number }[]
  /** How many trigger levels the site names. */
  readonly levelCount: number
  readonly selectedPoint: string | null
  readonly remarks: readonly string[]
  readonly waiting: boolean
}

export interface DepthProfileEvents {
  readonly onSelectPoint: (point: string) => void
}
