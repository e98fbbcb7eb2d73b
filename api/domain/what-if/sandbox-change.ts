import type { SeriesPattern } from './series-pattern.ts'

/** How a zero reading is given. */
export type ZeroReading =
  /** A number in the channel's unit, with thermistor and barometer at their references. */
  | { readonly by: 'raw'; readonly raw: number }
  /** The last reading at or before an instant. */
  | { readonly by: 'reading'; readonly atEpochMs: number }
  /** The mean of all readings of a stretch, until exclusive. */
  | { readonly by: 'mean'; readonly fromEpochMs: number; readonly untilEpochMs: number }

interface Dated {
  readonly series: SeriesPattern
  /** Inclusive, by the instants at which readings stand; of a clock by the stamps that its logger sent. */
  readonly fromEpochMs: number
  /** Exclusive; null: for good. */
  readonly untilEpochMs: number | null
}

/** Something that is tried. */
export type SandboxChange = Dated &
  (
    | {
        /** Another number in a step of the chain, counted from 1. */
        readonly kind: 'coefficient'
        readonly step: number
        readonly name: string
        readonly value: number
      }
    | {
        /** Another zero reading, and what the value there is to be, in the unit of the series. */
        readonly kind: 'zero'
        readonly zero: ZeroReading
        readonly reads: number
      }
    | {
        /** Another barometer, or none; the share of the air's change that the sensor feels; kPa that the barometer reads too little. */
        readonly kind: 'barometer'
        readonly barometer: string | null
        readonly share: number
        /** Air pressure at the zero reading, kPa; null: as the chain has it. */
        readonly referenceKpa: number | null
        readonly offsetKpa: number
      }
    | {
        /** Another thermal term, in the unit of the series a degree; 0: none. */
        readonly kind: 'thermal'
        readonly factorPerDegC: number
        /** Temperature of the zero reading; null: as the chain has it. */
        readonly referenceDegC: number | null
      }
    | {
        /** The series reads the channel of another; exchanged: and that other reads its own. */
        readonly kind: 'wiring'
        readonly readsAs: SeriesPattern
        readonly exchanged: boolean
      }
    | {
        /** Added to the stamps of every channel of its logger, growing from `fromEpochMs` on, in the place of what is on record. */
        readonly kind: 'clock'
        readonly offsetSeconds: number
        readonly driftSecondsPerDay: number
      }
    | {
        /** Added to the value, in the unit of the series, growing from `fromEpochMs` on: the join of a replaced tip, a datum, a drift. */
        readonly kind: 'offset'
        readonly amount: number
        readonly perDay: number
      }
  )

export type SandboxKind = SandboxChange['kind']

export const sandboxKinds = [
  'zero',
  'coefficient',
  'barometer',
  'thermal',
  'wiring',
  'clock',
  'offset',
] as const satisfies readonly SandboxKind[]

/** What each kind of change is called. */
export const sandboxKindNames: Readonly<Record<SandboxKind, string>> = {
  zero: 'Zero reading',
  coefficient: 'Number of the calibration',
  barometer: 'Barometer',
  thermal: 'Thermal term',
  wiring: 'Wiring',
  clock: 'Clock of the logger',
  offset: 'Offset or drift',
}
