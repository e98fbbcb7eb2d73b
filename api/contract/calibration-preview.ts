/** Lowest, mean and highest value of a stretch of time under one of two calibrations; null where it has none. */
export interface PreviewBand {
  readonly low: number | null
  readonly mean: number | null
  readonly high: number | null
}

export interface PreviewStretch {
  readonly fromEpochMs: number
  readonly old: PreviewBand
  readonly new: PreviewBand
}

/** Readings at or past a trigger level in its time, under the calibrations as they are and with the draft. */
export interface PreviewLevel {
  readonly level: number
  readonly direction: string
  readonly value: number
  readonly reachedOld: number
  readonly reachedNew: number
}

/** What a draft would change, worked out from the raw readings; nothing is saved. */
export interface CalibrationPreview {
  readonly sensor: string
  readonly unit: string
  /** Readings of the sensor that were reduced. */
  readonly readings: number
  /** Of them, those whose value, or the lack of one, would be another. */
  readonly changed: number
  /** Values that would be lost, and gained. */
  readonly lost: number
  readonly gained: number
  readonly greatestChange: { readonly atEpochMs: number; readonly old: number; readonly new: number } | null
  readonly meanChange: number | null
  /** Length of each stretch: hours while all readings lie within three weeks, days (UTC) otherwise. */
  readonly resolution: 'hour' | 'day'
  readonly stretches: readonly PreviewStretch[]
  readonly levels: readonly PreviewLevel[]
  /** Other series that would change with it: it corrects them, or they are made from it. */
  readonly alsoChanges: readonly string[]
  /** A sentence about zero readings that the draft would leave behind; null: it leaves none. */
  readonly zeroReadingsLeft: string | null
}
