interface Dated {
  readonly fromEpochMs: number
  /** Exclusive; null: for good. */
  readonly untilEpochMs: number | null
}

/**
 * Where dated versions of a subject are to be added so that corrections hold in their time: where each begins (`begun`); after
 * whatever records within it that only said again what held already, since they would end it (`still`); and where it ends
 * (`again`), unless another correction or record begins there. In the order in which they are numbered.
 */
export function datedVersions<C extends Dated>(
  recorded: readonly { readonly validFrom: number }[],
  corrections: readonly C[],
): readonly {
  readonly as: 'begun' | 'still' | 'again'
  readonly validFrom: number
  readonly correction: C
}[] {
  const recordedFrom = [...new Set(recorded.map(({ validFrom }) => validFrom))].toSorted(
    (one, other) => one - other,
  )
  const begins = new Set([...recordedFrom, ...corrections.map(({ fromEpochMs }) => fromEpochMs)])
  return corrections
    .toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)
    .flatMap((correction) => {
      const { fromEpochMs, untilEpochMs } = correction
      const until = untilEpochMs ?? Number.POSITIVE_INFINITY
      const within = recordedFrom.filter((validFrom) => validFrom > fromEpochMs && validFrom < until)
      return [
        { as: 'begun' as const, validFrom: fromEpochMs, correction },
        ...within.map((validFrom) => ({ as: 'still' as const, validFrom, correction })),
        ...(untilEpochMs === null || begins.has(untilEpochMs)
          ? []
          : [{ as: 'again' as const, validFrom: untilEpochMs, correction }]),
      ]
    })
}
