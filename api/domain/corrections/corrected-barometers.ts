import { groupBy } from '../group-by.ts'
import type { SensorBarometer } from '../site/tables.ts'
import type { CorrectionSignature } from './corrected-model.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { ProposedCorrection } from './correction.ts'
import { datedVersions } from './dated-versions.ts'

type BarometerCorrection = Extract<ProposedCorrection, { kind: 'barometer' }>

/**
 * Barometers of sensors with the versions by which corrections hold in their time (`datedVersions`); none where one ends and
 * no barometer was named before. No version is edited.
 */
export function correctedBarometers(
  { sensorBarometers }: Pick<CorrectedTables, 'sensorBarometers'>,
  corrections: readonly BarometerCorrection[],
  { author, reason }: CorrectionSignature,
): readonly SensorBarometer[] {
  const added = [...groupBy(corrections, ({ series }) => series)].flatMap(([sensor, own]) => {
    const recorded = sensorBarometers.filter((row) => row.sensor === sensor)
    const last = Math.max(0, ...recorded.map(({ version }) => version))
    return datedVersions(recorded, own)
      .flatMap(({ as, validFrom, correction: { was, barometer } }) => {
        const held = as === 'again' ? was : barometer
        const why = {
          begun: reason,
          still: `By ${held} still, in the time of the correction before it. ${reason}`,
          again: `By ${held} again, after the correction before it. ${reason}`,
        }[as]
        return held === null ? [] : [{ validFrom, barometer: held, reason: why }]
      })
      .map((row, at): SensorBarometer => ({ sensor, version: last + at + 1, author, ...row }))
  })
  return [...sensorBarometers, ...added]
}
