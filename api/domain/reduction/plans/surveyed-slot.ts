import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, siteTables } from '../../site/tables.ts'
import type { Measure } from '../../site/vocabulary.ts'
import type { DerivedSlot } from '../rules/derived-bundle.ts'
import { instrumentIssue, type PlanSite, unitFaults } from './plan-site.ts'

/**
 * The slot of a measure of an instrument's `surveyedPoint`: its last survey at or before an instant, up to
 * `surveyMaximumAgeDays`. Refused where the point, its sensor or the age is not stated, where it is not in mm, and
 * where its own value hangs on companions, which are not kept from before the month that is worked out.
 */
export function surveyedSlot(instrument: Instrument, site: PlanSite, measure: Measure): Outcome<DerivedSlot> {
  const { surveyedPoint, surveyMaximumAgeDays } = instrument
  if (surveyedPoint == null)
    return reject(
      instrumentIssue(
        instrument,
        'surveyedPoint',
        'surveyed-point-expected',
        'a measuring point',
        `${instrument.id} is told from a surveyed end, but names no point that is surveyed. Name the measuring point in surveyedPoint.`,
      ),
    )
  if (surveyMaximumAgeDays == null)
    return reject(
      instrumentIssue(
        instrument,
        'surveyMaximumAgeDays',
        'survey-age-expected',
        'days',
        `${instrument.id} is told from the surveys of ${surveyedPoint}, but does not say how long a survey may stand. Give surveyMaximumAgeDays.`,
      ),
    )
  const sensor = site.sensors.find((one) => one.point === surveyedPoint && one.measure === measure)
  if (sensor === undefined)
    return reject(
      instrumentIssue(
        instrument,
        'surveyedPoint',
        'surveyed-point-without-sensor',
        `a point with a ${measure} series`,
        `${surveyedPoint}, from whose surveys ${instrument.id} is told, has no series of ${measure}. Add its sensor to ${siteTables.sensors.file} or name another point.`,
      ),
    )
  const faults = [...unitFaults(instrument, [sensor], 'mm')]
  if (sensor.temperatureSensor !== null || sensor.barometerSensor !== null)
    faults.push({
      code: 'survey-with-companions',
      file: siteTables.sensors.file,
      column: sensor.temperatureSensor !== null ? 'temperatureSensor' : 'barometerSensor',
      value: sensor.temperatureSensor ?? sensor.barometerSensor ?? '',
      expected: 'empty',
      message: `${sensor.id} stands for the moving end of ${instrument.id} between surveys and may not hang on companions. Take them out.`,
    })
  if (faults.length > 0) return reject(...faults)
  return accept({
    point: surveyedPoint,
    depthMetres: 0,
    series: [sensor.id],
    maximumAgeMinutes: surveyMaximumAgeDays * 1440,
  })
}
