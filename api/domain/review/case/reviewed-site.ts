import type { LoggerDay } from '../../network/logger-day.ts'
import type { UncertaintyPeriod } from '../../reduction/series-uncertainty.ts'
import type { VentingRemark } from '../../reduction/venting-remark.ts'
import type {
  CheckLimit,
  DiaryEntry,
  Logger,
  Prediction,
  Stage,
  Verdict,
  VerdictWithdrawal,
} from '../../site/tables.ts'
import type { InstrumentKind, Measure } from '../../site/vocabulary.ts'

/** A series of engineering values as a review looks at it. */
export interface ReviewedSeries {
  /** Its number in slices. */
  readonly series: number
  /** point/measure */
  readonly id: string
  readonly point: string
  readonly measure: Measure
  readonly unit: string
  readonly decimals: number
  readonly standardUncertainty: number | null
  readonly uncertaintyPeriods?: readonly UncertaintyPeriod[] | undefined
  readonly intervalMinutes: number
  readonly lateAfterMinutes: number
  /** Left out: it goes on. */
  readonly endedAtEpochMs?: number | undefined
  readonly venting?: VentingRemark | undefined
  /** True where an instrument makes it of its members. */
  readonly made?: true | undefined
  readonly range?: { readonly low: number; readonly high: number } | undefined
}

/** What of a site's records a review looks at; the site document has it all. */
export interface ReviewedSite {
  readonly facts: { readonly timeZone: string }
  readonly series: readonly ReviewedSeries[]
  readonly points: readonly {
    readonly id: string
    readonly instrument: string
    readonly depthMetres: number
    readonly eastingMetres: number
    readonly northingMetres: number
    readonly levelMetres: number
    readonly stratum: string | null
    readonly retiredAtEpochMs: number | null
  }[]
  readonly instruments: readonly {
    readonly id: string
    readonly kind: InstrumentKind
    readonly location: string
    /** Names of its points. */
    readonly points: readonly string[]
    readonly retiredAtEpochMs: number | null
  }[]
  readonly locations: readonly {
    readonly id: string
    readonly eastingMetres: number
    readonly northingMetres: number
    readonly collarLevelMetres: number
  }[]
  readonly loggers: readonly Pick<Logger, 'id' | 'kind' | 'location'>[]
  /** Logger that reads each series now: `LG-01 / 3`. */
  readonly wiredTo: Readonly<Record<string, string>>
  readonly stages: readonly Stage[]
  readonly diary: readonly DiaryEntry[]
  readonly predictions: readonly Prediction[]
  readonly checkLimits: readonly CheckLimit[]
  readonly verdicts: readonly Verdict[]
  readonly verdictWithdrawals: readonly VerdictWithdrawal[]
}

/** The loggers of a site as they were known at an instant. */
export interface KnownNetwork {
  readonly loggers: readonly {
    readonly logger: string
    readonly wiredChannels: readonly { readonly series: string }[]
    readonly days: readonly LoggerDay[]
    readonly lateAfterMinutes: number | null
  }[]
}

/** What was read, as columns of numbers; instants are epoch milliseconds, NaN where nothing is. */
export interface ReadColumns {
  readonly rows: number
  readonly number: (name: string) => Float64Array
}
