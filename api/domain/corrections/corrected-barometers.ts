import { groupBy } from '../group-by.ts'
import type { SensorBarometer } from '../site/tables.ts'
import type { CorrectionSignature } from './corrected-model.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { ProposedCorrection } from './correction.ts'

type BarometerCorrection = Extract<ProposedCorrection, { kind: 'barometer' }>

/**
 * Barometers of sensors with one more version where a correction begins, and one that is as before again where it ends;
 * none there where another correction or record begins, or where no barometer was named before. Records within that only
 * said again what held already would end it: each has a version after it. No version is edited.
 */
export function correctedBarometers(
  { sensorBarometers }: Pick<CorrectedTables, 'sensorBarometers'>,
  corrections: readonly BarometerCorrection[],
  { author, reason }: CorrectionSignature,
): readonly SensorBarometer[] {
  const made = [...sensorBarometers]
  for (const [sensor, own] of groupBy(corrections, ({ series }) => series)) {
    const recorded = sensorBarometers.filter((row) => row.sensor === sensor)
    const begins = new Set([
      ...recorded.map(({ validFrom }) => validFrom),
      ...own.map(({ fromEpochMs }) => fromEpochMs),
    ])
    let version = Math.max(0, ...recorded.map((row) => row.version))
    const add = (validFrom: number, barometer: string, why: string) =>
      made.push({ sensor, version: ++version, validFrom, barometer, author, reason: why })
    for (const { fromEpochMs, untilEpochMs, was, barometer } of own.toSorted(
      (one, other) => one.fromEpochMs - other.fromEpochMs,
    )) {
      add(fromEpochMs, barometer, reason)
      const within = new Set(
        recorded
          .map(({ validFrom }) => validFrom)
          .filter(
            (validFrom) => validFrom > fromEpochMs && validFrom < (untilEpochMs ?? Number.POSITIVE_INFINITY),
          ),
      )
      for (const validFrom of [...within].toSorted((one, other) => one - other))
        add(validFrom, barometer, `By ${barometer} still, in the time of the correction before it. ${reason}`)
      if (untilEpochMs !== null && was !== null && !begins.has(untilEpochMs))
        add(untilEpochMs, was, `By ${was} again, after the correction before it. ${reason}`)
    }
  }
  return made
}
