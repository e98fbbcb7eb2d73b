import type { Issue, Outcome } from '../../outcome.ts'
import type { SiteModel } from '../../site/site.ts'
import { type Instrument, type MeasuringPoint, type Sensor, siteTables } from '../../site/tables.ts'
import type { Measure } from '../../site/vocabulary.ts'
import { isSameUnit } from '../../units.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'

/** Tables from which derived series are planned, and what water weighs there; the customary 9.81 kN/m³ where not given. */
export type PlanSite = Pick<SiteModel, 'instruments' | 'points' | 'sensors' | 'locations' | 'strata'> & {
  readonly waterUnitWeightKnPerM3?: number
  /** Deviation surveys of the holes; none: every hole is straight. */
  readonly holeSurveys?: SiteModel['holeSurveys']
  /** Lines through structures; none: nothing is made of them. */
  readonly structureLines?: SiteModel['structureLines']
}

/** What instruments of a kind derive from their members; refused with record, field and reason. */
export type Planner = (instrument: Instrument, site: PlanSite) => Outcome<readonly DerivedBundle[]>

/**
 * The measuring points of an instrument. A point named as its instrument stands for the whole of it: it carries
 * derived series, not a member.
 */
export const pointsOf = (instrument: Instrument, site: Pick<PlanSite, 'points'>): readonly MeasuringPoint[] =>
  site.points.filter((point) => point.instrument === instrument.id && point.id !== instrument.id)

/** Sensors of some points that measure one thing. */
export const sensorsOf = (
  points: readonly MeasuringPoint[],
  site: PlanSite,
  measure: Measure,
): readonly Sensor[] => {
  const ids = new Set(points.map(({ id }) => id))
  return site.sensors.filter((sensor) => sensor.measure === measure && ids.has(sensor.point))
}

/** A refusal about a cell of instruments.csv. */
export const instrumentIssue = (
  instrument: Instrument,
  column: keyof Instrument & string,
  code: string,
  expected: string,
  message: string,
): Issue => ({
  code,
  file: siteTables.instruments.file,
  column,
  value: String(instrument[column] ?? ''),
  expected,
  message,
})

/** Members whose unit is not the one asked for. */
export const unitFaults = (
  instrument: Instrument,
  sensors: readonly Sensor[],
  unit: string,
): readonly Issue[] =>
  sensors
    .filter((sensor) => !isSameUnit(sensor.unit, unit))
    .map((sensor) => ({
      code: 'members-of-different-units',
      file: siteTables.sensors.file,
      column: 'unit',
      value: sensor.unit,
      expected: unit,
      message: `${sensor.id} is given in ${sensor.unit}, but ${instrument.id} is made from members in ${unit}. Give all of them one unit.`,
    }))

/** Of members: the longest interval, the most patient lateness. */
export const pace = (sensors: readonly Sensor[]) => ({
  intervalMinutes: Math.max(...sensors.map(({ intervalMinutes }) => intervalMinutes)),
  lateAfterMinutes: Math.max(...sensors.map(({ lateAfterMinutes }) => lateAfterMinutes)),
})

/** Of members: the coarsest. */
export const decimalsOf = (sensors: readonly Sensor[]): number =>
  Math.min(...sensors.map(({ decimals }) => decimals))
