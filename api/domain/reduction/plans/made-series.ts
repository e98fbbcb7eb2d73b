import type { Instrument, Sensor } from '../../site/tables.ts'
import type { Combination, DerivedBundle, DerivedOutput, DerivedSlot } from '../rules/derived-bundle.ts'
import { pace } from './plan-site.ts'

/** A derived series and the combination that makes it. */
export interface MadeSeries {
  readonly output: Omit<DerivedOutput, 'of'>
  readonly combination: Combination
}

/** The bundle of some combinations of one instrument; none where there is nothing to make. */
export const combinationBundles = (
  instrument: Instrument,
  slots: readonly DerivedSlot[],
  made: readonly MadeSeries[],
  sensors: readonly Sensor[],
  /** The greatest of some of them, by their places in `made`. */
  greatest: { readonly output: Omit<DerivedOutput, 'of'>; readonly of: readonly number[] } | null = null,
): readonly DerivedBundle[] =>
  made.length === 0
    ? []
    : [
        {
          instrument: instrument.id,
          rule: {
            kind: 'combination',
            combinations: made.map(({ combination }) => combination),
            ...(greatest === null ? {} : { greatestOf: greatest.of }),
          },
          slots,
          outputs: [
            ...(greatest === null ? [] : [{ ...greatest.output, of: 'whole' as const }]),
            ...made.map(({ output }, of) => ({ ...output, of })),
          ],
          ...pace(sensors),
        },
      ]
