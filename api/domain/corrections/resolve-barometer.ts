import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { type BarometerPeriod, barometerAt, barometersOf } from '../reduction/barometer-in-force.ts'
import { showInstant } from '../site/site-readings.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { CorrectionDraft, ProposedCorrection } from './correction.ts'

/** Another barometer held against the records. */
export function resolvedBarometer(
  { sensors }: Pick<CorrectedTables, 'sensors'>,
  draft: Extract<CorrectionDraft, { kind: 'barometer' }>,
): Outcome<ProposedCorrection> {
  const { series, was, barometer } = draft
  if (was === barometer)
    return reject({ code: 'changes-nothing', message: `${series} is corrected by ${barometer} already.` })
  if (sensors.find(({ id }) => id === barometer)?.measure !== 'barometric-pressure')
    return reject({ code: 'barometer-unknown', message: `${barometer} is no barometer of this site.` })
  return accept({
    ...draft,
    name: 'barometer',
    replaces: was ?? 'no barometer',
    before: was === null ? 'No barometer is named for it.' : `It is corrected by ${was}.`,
    after: `It is corrected by ${barometer}.`,
  })
}

/** Why the barometer is no longer the one that another was tried on; null: it is. */
export function staleBarometer(
  model: CorrectedTables,
  { series, fromEpochMs, untilEpochMs, was }: Extract<CorrectionDraft, { kind: 'barometer' }>,
): Pick<Issue, 'code' | 'message'> | null {
  const periods = barometerPeriodsOf(model, series)
  if (periods === null) return { code: 'sensor-unknown', message: `There is no sensor ${series}.` }
  const { barometer, record } = barometerAt(periods, fromEpochMs)
  if (barometer !== was)
    return {
      code: 'barometer-overtaken',
      message: `${series} is on record as corrected by ${barometer ?? 'no barometer'} at ${showInstant(fromEpochMs)}${record ? ` (${record.author}: ${record.reason})` : ''}, not by ${was ?? 'none'}. Try it on what is recorded now.`,
    }
  const begun = periods.find(
    (one) => one.fromEpochMs > fromEpochMs && one.fromEpochMs < (untilEpochMs ?? Number.POSITIVE_INFINITY),
  )
  return begun
    ? {
        code: 'barometer-begins-within',
        message: `${series} is corrected by ${begun.barometer} from ${showInstant(begun.fromEpochMs)} on, within the time of this correction. A correction ends where another barometer begins.`,
      }
    : null
}

/** Which barometer corrects a sensor, and when; null: there is no such sensor. */
export function barometerPeriodsOf(
  { sensors, sensorBarometers }: Pick<CorrectedTables, 'sensors' | 'sensorBarometers'>,
  series: string,
): readonly [BarometerPeriod, ...BarometerPeriod[]] | null {
  const sensor = sensors.find(({ id }) => id === series)
  return sensor ? barometersOf(sensorBarometers)(sensor) : null
}
