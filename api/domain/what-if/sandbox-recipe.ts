import type { CalibrationStep } from '../reduction/chain.ts'
import type { ClockSetting } from '../reduction/logger-clock.ts'
import type { DerivedBundle } from '../reduction/rules/derived-bundle.ts'

/**
 * One stretch of time in which a channel reads one sensor under one calibration, as `links.ts` of the server has it
 * but by the ids of series; until is exclusive.
 */
export interface SandboxLink {
  readonly channel: number
  readonly series: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /** Null: no calibration is in force; the readings have no value. */
  readonly steps: readonly CalibrationStep[] | null
  /** The sensor's own thermistor and barometer, whether its chain asks for them or not. */
  readonly temperatureSeries: string | null
  readonly barometerSeries: string | null
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  readonly decimals: number
  readonly lateAfterMinutes: number
  /** kPa that the barometer is taken to read too little; 0 but in a sandbox. */
  readonly barometerOffsetKpa?: number
  /** Added to its values, growing with time; only in a sandbox. */
  readonly growing?: readonly GrowingOffset[]
}

/** An offset in the unit of a series that grows evenly from an instant on. */
export interface GrowingOffset {
  readonly fromEpochMs: number
  readonly perDay: number
}

/** A channel of a logger, by the number under which its readings are kept. */
export interface SandboxChannel {
  readonly channel: number
  readonly logger: string
  readonly name: string
  /** UCUM code of what it gives, where a sensor that it reads states it. */
  readonly rawUnit: string | null
}

/** How the stamps of a logger are put right. */
export interface SandboxClock {
  readonly logger: string
  readonly settings: readonly ClockSetting[]
}

/** How some series are made of raw readings: all that the browser needs beside the readings. */
export interface SandboxRecipe {
  readonly links: readonly SandboxLink[]
  /** In the order in which they are made: what one makes may go into a later one. */
  readonly bundles: readonly DerivedBundle[]
  readonly channels: readonly SandboxChannel[]
  /** Of loggers whose clocks are on record as wrong; left out: none is. */
  readonly clocks?: readonly SandboxClock[]
}

/** Raw readings of one channel in order of time, at their instants: as stamped, or as its clock put right would have. */
export interface ChannelReadings {
  readonly atEpochMs: Float64Array
  /** In the channel's own unit; NaN: the logger gave none. */
  readonly raw: Float64Array
  /** From the reading to its receipt. */
  readonly receivedAfterSeconds: Float64Array
  /** As they came, in order of their stamps; left out: these are. */
  readonly sent?: ChannelReadings
}

/** Raw readings by the number of their channel. */
export type RawReadings = ReadonlyMap<number, ChannelReadings>
