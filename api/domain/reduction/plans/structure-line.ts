import { usualStiffnessRatio } from '../../ground/building-damage.ts'
import { chainagesOfPlaces, type PlaceOnGrid } from '../../ground/facade-line.ts'
import { accept, type Issue, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, siteTables } from '../../site/tables.ts'
import type { DerivedBundle, DerivedOutput } from '../rules/derived-bundle.ts'
import { tiltOutput } from '../rules/structure-line.ts'
import { instrumentIssue, type PlanSite, pace, unitFaults } from './plan-site.ts'

/** A façade is straight within this; a line around a corner is two lines. */
const straightWithinMetres = 1
const leastBayMetres = 0.5

/**
 * Tilt, angular distortion of each bay and deflection ratio of the settlement points along a line through a structure,
 * at the instant at which a round is complete: `surveyMaximumAgeDays` says how far apart its readings may lie. Bays are
 * as long as the surveyed positions lie apart along the line. A point that replaces another begins anew, so it must be
 * named itself.
 */
export function planStructureLine(instrument: Instrument, site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const rows = (site.structureLines ?? [])
    .filter(({ line }) => line === instrument.id)
    .toSorted((one, other) => one.order - other.order)
  const roundDays = instrument.surveyMaximumAgeDays
  if (roundDays === null)
    return reject(
      instrumentIssue(
        instrument,
        'surveyMaximumAgeDays',
        'survey-age-expected',
        'days, such as 0.25',
        `${instrument.id} is made of points that are read one after another, but does not say how far apart the readings of one round may lie. Give surveyMaximumAgeDays.`,
      ),
    )
  if (rows.length < 3)
    return reject(
      instrumentIssue(
        instrument,
        'id',
        'structure-line-short',
        `three rows or more in ${siteTables.structureLines.file}`,
        `${instrument.id} has ${rows.length} points in ${siteTables.structureLines.file}. Distortion needs three or more along one line.`,
      ),
    )
  const members = rows.map(({ point }) => ({
    point,
    sensor: site.sensors.find((one) => one.point === point && one.measure === 'settlement'),
    place: placeOf(point, site),
  }))
  const sensors = members.flatMap(({ sensor }) => sensor ?? [])
  const chainages = chainagesOfPlaces(members.map(({ place }) => place))
  const faults = [
    ...members.flatMap(({ point, sensor }) => sensorFaults(instrument, point, sensor)),
    ...unitFaults(instrument, sensors, 'mm'),
    ...members.flatMap(({ point }, at) => placeFaults(instrument, point, chainages[at], chainages[at - 1])),
  ]
  if (faults.length > 0) return reject(...faults)
  const chainagesMetres = chainages.map(({ along }) => along)
  const lengthMetres = chainagesMetres.at(-1) ?? 0
  const rule = { kind: 'structure-line' as const, chainagesMetres }
  const heightMetres = instrument.structureHeightMetres ?? null
  return accept([
    {
      instrument: instrument.id,
      rule,
      slots: members.map(({ point, sensor }, at) => ({
        point,
        depthMetres: chainagesMetres[at] ?? 0,
        series: sensor ? [sensor.id] : [],
        maximumAgeMinutes: roundDays * 1440,
      })),
      outputs: outputsOf(
        instrument,
        rows.map(({ point }) => point),
      ),
      ...pace(sensors),
      ...(heightMetres === null
        ? {}
        : {
            structure: {
              lengthMetres,
              heightMetres,
              stiffnessRatio: instrument.structureStiffnessRatio ?? usualStiffnessRatio,
            },
          }),
    },
  ])
}

function outputsOf({ id }: Instrument, points: readonly string[]): readonly DerivedOutput[] {
  const [first, last] = [points[0] ?? '', points.at(-1) ?? '']
  const common = { unit: 'mm/m', decimals: 3 } as const
  return [
    {
      ...common,
      id: `${id}/deflection-ratio`,
      point: id,
      measure: 'deflection-ratio',
      positiveMeans: `sagging: the middle settles against the straight line from ${first} to ${last}; negative is hogging`,
      of: 'whole',
    },
    {
      ...common,
      id: `${id}/tilt`,
      point: id,
      measure: 'tilt',
      positiveMeans: `${last} settles more than ${first}`,
      of: tiltOutput({ chainagesMetres: points.map(() => 0) }),
    },
    ...points.slice(1).map(
      (point, of): DerivedOutput => ({
        ...common,
        id: `${point}/angular-distortion`,
        point,
        measure: 'angular-distortion',
        positiveMeans: `${point} settles more against ${points[of]} than the tilt of ${id} from end to end makes it`,
        of,
      }),
    ),
  ]
}

function placeOf(point: string, site: PlanSite): PlaceOnGrid | null {
  const own = site.points.find(({ id }) => id === point)
  const instrument = site.instruments.find(({ id }) => id === own?.instrument)
  return site.locations.find(({ id }) => id === instrument?.location) ?? null
}

const rowIssue = (point: string, code: string, expected: string, message: string): Issue => ({
  code,
  file: siteTables.structureLines.file,
  column: 'point',
  value: point,
  expected,
  message,
})

function sensorFaults(
  { id }: Instrument,
  point: string,
  sensor: PlanSite['sensors'][number] | undefined,
): readonly Issue[] {
  if (sensor === undefined)
    return [
      rowIssue(
        point,
        'structure-point-without-settlement',
        'a point with a settlement',
        `${point} of ${id} has no sensor of settlement in ${siteTables.sensors.file}. Add it, or take the row away.`,
      ),
    ]
  if (sensor.temperatureSensor === null && sensor.barometerSensor === null) return []
  return [
    rowIssue(
      point,
      'survey-with-companions',
      'a settlement without companions',
      `${point} of ${id} stands for the rest of its round and may not hang on companions. Take them out of ${sensor.id}.`,
    ),
  ]
}

function placeFaults(
  { id }: Instrument,
  point: string,
  own: { along: number; beside: number } | undefined,
  before: { along: number } | undefined,
): readonly Issue[] {
  if (own && own.beside > straightWithinMetres)
    return [
      rowIssue(
        point,
        'structure-line-bent',
        `within ${straightWithinMetres} m of the straight line`,
        `${point} of ${id} lies ${own.beside.toFixed(1)} m beside the straight line from its first point to its last. Make one line a face of the structure, or correct its location.`,
      ),
    ]
  if (own && before && own.along - before.along < leastBayMetres)
    return [
      rowIssue(
        point,
        'structure-line-order',
        `${leastBayMetres} m or more beyond the point before`,
        `${point} of ${id} lies ${(own.along - before.along).toFixed(2)} m along the line from the point before it. Put points in order from one end to the other, each once.`,
      ),
    ]
  return []
}
