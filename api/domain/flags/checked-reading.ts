/** A reading with all that the checks look at. Values in the unit of the series. */
export interface CheckedReading {
  readonly atEpochMs: number
  readonly value: number
  /** Seconds from its stamp to its receipt; negative where the logger's clock runs ahead. */
  readonly receivedAfterSeconds: number
  /** When the reading with a value before it was taken, however long ago; null: none is known. */
  readonly beforeEpochMs: number | null
  /** Nearest readings with a value; null: there is none so near that it counts as a neighbour (`neighbourMinutes`). */
  readonly before: { readonly atEpochMs: number; readonly value: number } | null
  readonly after: { readonly atEpochMs: number; readonly value: number } | null
  /** First reading of the run of neighbours that show the same digits as this one. */
  readonly unchangedSinceEpochMs: number
  /** From when on readings were due: the beginning of its wiring, or as far back as is looked. */
  readonly dueSinceEpochMs: number
  /** What the duplicate instrument said last, if not too long ago. */
  readonly duplicate: number | null
  /** What the companion thermometer said last, degC. */
  readonly temperatureDegC: number | null
}
