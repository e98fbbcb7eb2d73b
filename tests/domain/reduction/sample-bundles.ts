import { derivedBundles } from '#domain/reduction/derived-series.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import type { Instrument, MeasuringPoint, Sensor } from '#domain/site/tables.ts'

export const instrumentRow = (
  id: string,
  kind: Instrument['kind'],
  fixedEnd: Instrument['fixedEnd'] = null,
): Instrument => ({
  id,
  kind,
  location: `${id}-place`,
  axisBearingDegrees: null,
  positiveMeans: 'towards the dig',
  fixedEnd,
  installedAt: 0,
  retiredAt: null,
  replaces: null,
  critical: false,
  note: null,
  anchorPositive: null,
  surveyedPoint: null,
  surveyMaximumAgeDays: null,
  positiveB: null,
  stillBelowMetres: null,
  thermalFactorKnPerKelvin: null,
  thermalReferenceDegC: null,
  totalStressFrom: null,
})

export const pointRow = (
  id: string,
  instrument: string,
  depthMetres: number,
  replaces: string | null = null,
): MeasuringPoint => ({
  id,
  instrument,
  depthMetres,
  gaugeLengthMetres: 2,
  intakeTopLevelMetres: null,
  intakeBaseLevelMetres: null,
  stratum: null,
  retiredAt: null,
  replaces,
  zeroDeviationAMm: null,
  zeroDeviationBMm: null,
})

export const sensorRow = (point: string, measure: Sensor['measure'], unit: string): Sensor => ({
  id: `${point}/${measure}`,
  point,
  measure,
  serial: null,
  rawUnit: 'count',
  unit,
  rangeLow: null,
  rangeHigh: null,
  decimals: 3,
  temperatureSensor: null,
  barometerSensor: null,
  intervalMinutes: 60,
  lateAfterMinutes: 180,
})

const model = (
  instrument: Instrument,
  points: readonly MeasuringPoint[],
  measure: Sensor['measure'],
  unit: string,
) => ({
  instruments: [instrument],
  points,
  sensors: points.map(({ id }) => sensorRow(id, measure, unit)),
  locations: [],
  strata: [],
})

const bundleOf = (site: Parameters<typeof derivedBundles>[0]): DerivedBundle => {
  const made = derivedBundles(site)
  if (!made.ok || made.value[0] === undefined) throw new Error(JSON.stringify(made))
  return made.value[0]
}

/** Strut with so many gauges, the second of which was replaced once. */
export const strutBundle = (gauges: number): DerivedBundle =>
  bundleOf(
    model(
      instrumentRow('ST-1', 'strut-load'),
      [
        ...Array.from({ length: gauges }, (_, index) => pointRow(`ST-1-${index + 1}`, 'ST-1', index)),
        pointRow('ST-1-2R', 'ST-1', 1, 'ST-1-2'),
      ],
      'force',
      'kN',
    ),
  )

/** The thermal split of a strut with so many gauges and thermometers, the second gauge of which was replaced once. */
export function thermalSplitBundle(gauges: number): DerivedBundle {
  const points = [
    ...Array.from({ length: gauges }, (_, index) => pointRow(`ST-1-${index + 1}`, 'ST-1', index)),
    pointRow('ST-1-2R', 'ST-1', 1, 'ST-1-2'),
  ]
  const made = derivedBundles({
    instruments: [
      { ...instrumentRow('ST-1', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 12 },
    ],
    points,
    sensors: points.flatMap(({ id }) => [sensorRow(id, 'force', 'kN'), sensorRow(id, 'temperature', 'degC')]),
    locations: [],
    strata: [],
  })
  if (!made.ok || made.value[1] === undefined) throw new Error(JSON.stringify(made))
  return made.value[1]
}

/** In-place inclinometer with so many segments, the second of which was replaced once. */
export const inclinometerBundle = (segments: number, fixedEnd: 'toe' | 'head'): DerivedBundle =>
  bundleOf(
    model(
      instrumentRow('IP-1', 'in-place-inclinometer', fixedEnd),
      [
        ...Array.from({ length: segments }, (_, index) =>
          pointRow(`IP-1-${index + 1}`, 'IP-1', 1 + 2 * index),
        ),
        pointRow('IP-1-2R', 'IP-1', 3, 'IP-1-2'),
      ],
      'inclination-a',
      'mm',
    ),
  )
