import { verticalDepthMetres } from '#domain/reduction/casing.ts'
import { checksumSpread } from '#domain/reduction/face-checksum.ts'
import { resultantMovement } from '#domain/reduction/inclinometer-axes.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { depthShape, errorOf, rotationShape } from '#domain/reduction/survey-errors.ts'
import { deriveMeasured, type MeasuredPoint } from '../derive-measured.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { inclinometersRows } from './rows.ts'

/** A face reading in mm over the interval, as its calibration makes it: L / K. */
const millimetres = (reading: number, { L_mm, K_reading_per_sin }: PublishedInputs): number =>
  reduceValue(
    reading,
    [{ kind: 'linear', parameters: { factor: L_mm / K_reading_per_sin, offset: 0, unit: 'mm' } }],
    { temperatureDegC: null, barometerKpa: null },
  ).value ?? Number.NaN

const intervals = (inputs: PublishedInputs, when: 'base' | 'now', zeros: readonly number[] | null) =>
  inputs.depth_m.map(
    (depth: number, at: number): MeasuredPoint => ({
      id: `T${at}`,
      depthMetres: depth - inputs.L_mm / 2000,
      gaugeLengthMetres: inputs.L_mm / 1000,
      zeroDeviationAMm: zeros?.[at] ?? null,
      read: {
        'face-a0': millimetres(inputs[`A0_${when}`][at], inputs),
        'face-a180': millimetres(inputs[`A180_${when}`][at], inputs),
      },
    }),
  )

const traverse = (inputs: PublishedInputs, when: 'base' | 'now', zeros: readonly number[] | null = null) =>
  deriveMeasured({
    instrument: { kind: 'traversed-inclinometer', fixedEnd: 'toe' },
    points: intervals(inputs, when, zeros),
  })

const column = (derived: Readonly<Record<string, number | null>>, measure: string, count: number) =>
  Array.from({ length: count }, (_, at) => derived[`T${at}/${measure}`] ?? Number.NaN)

const deviations = (inputs: PublishedInputs, when: 'base' | 'now') =>
  column(traverse(inputs, when), 'deviation-a', inputs.depth_m.length)

/** Checksums in the probe's own readings: K / L of those in mm. */
const checksums = (inputs: PublishedInputs, when: 'base' | 'now') =>
  column(traverse(inputs, when), 'checksum-a', inputs.depth_m.length).map((mm) =>
    // Readings are whole numbers; so is their sum.
    Number(((mm * inputs.K_reading_per_sin) / inputs.L_mm).toFixed(9)),
  )

/** Offset of a gauge over its length, mm: the step that sensors of a string use. */
const offset = (lengthMetres: number, tilt: number): number =>
  reduceValue(tilt, [{ kind: 'gauge-length-sine', parameters: { length: lengthMetres } }], {
    temperatureDegC: null,
    barometerKpa: null,
  }).value ?? Number.NaN

function stringOf(inputs: PublishedInputs) {
  const { L_m, theta0_deg, theta1_deg, missing = [] } = inputs
  let top = 0
  const increments = L_m.map(
    (length: number, at: number) => offset(length, theta1_deg[at]) - offset(length, theta0_deg[at]),
  )
  const derived = deriveMeasured({
    instrument: { kind: 'in-place-inclinometer', fixedEnd: 'toe' },
    points: L_m.map((length: number, at: number): MeasuredPoint => {
      top += length
      return {
        id: `T${at}`,
        depthMetres: top - length / 2,
        gaugeLengthMetres: length,
        read: { 'inclination-a': missing.includes(at) ? null : increments[at] },
      }
    }),
  })
  return { increments, cumulative: L_m.map((_: number, at: number) => derived[`T${at}/deflection`]) }
}

const eastNorth = (
  { dA_mm, dB_mm, azimuth_A_deg }: PublishedInputs,
  positiveB: 'clockwise' | 'counter-clockwise',
) => {
  const derived = deriveMeasured({
    instrument: {
      kind: 'in-place-inclinometer',
      fixedEnd: 'toe',
      axisBearingDegrees: azimuth_A_deg,
      positiveB,
    },
    points: [{ id: 'T0', depthMetres: 1, read: { 'inclination-a': dA_mm, 'inclination-b': dB_mm } }],
  })
  const east = derived['I/displacement-east'] ?? Number.NaN
  const north = derived['I/displacement-north'] ?? Number.NaN
  const { length, bearingDegrees } = resultantMovement({ east, north })
  return { E: east, N: north, resultant: length, azimuth_deg: bearingDegrees }
}

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0)
const sine = (degrees: number) => Math.sin((degrees * Math.PI) / 180)

export const inclinometers: PublishedTable = {
  area: 'inclinometers',
  rows: inclinometersRows,
  computed: {
    'IN-01': (inputs) => ({ base: checksums(inputs, 'base'), now: checksums(inputs, 'now') }),
    'IN-02': (inputs) => {
      const spread = checksumSpread(
        inputs.A0_now.map((face0: number, at: number) => ({ face0, face180: inputs.A180_now[at] })),
      )
      return { mean: spread?.mean, sd_n_minus_1: spread?.standardDeviation }
    },
    'IN-03': (inputs) => ({ base: deviations(inputs, 'base'), now: deviations(inputs, 'now') }),
    'IN-04': (inputs) => {
      const cumulative = [
        ...column(traverse(inputs, 'now', deviations(inputs, 'base')), 'deflection', inputs.depth_m.length),
        0,
      ]
      return inputs.depth_m.map((_: number, at: number) => (cumulative[at] ?? 0) - (cumulative[at + 1] ?? 0))
    },
    'IN-05': (inputs) =>
      column(traverse(inputs, 'now', deviations(inputs, 'base')), 'deflection', inputs.depth_m.length),
    'IN-06': ({ bias_A0, bias_A180, intervals: count }) => {
      const inputs = { L_mm: 500, K_reading_per_sin: 50_000, depth_m: [] as number[] }
      const points = (bias0: number, bias180: number): MeasuredPoint[] =>
        Array.from({ length: count }, (_, at) => ({
          id: `T${at}`,
          depthMetres: 0.25 + at / 2,
          gaugeLengthMetres: 0.5,
          zeroDeviationAMm: 0,
          read: {
            'face-a0': millimetres(bias0, inputs),
            'face-a180': millimetres(bias180, inputs),
          },
        }))
      const derived = deriveMeasured({
        instrument: { kind: 'traversed-inclinometer', fixedEnd: 'toe' },
        points: points(bias_A0, bias_A180),
      })
      return {
        displacement_error_top_mm: derived['T0/deflection'],
        checksum_shift: ((derived['T0/checksum-a'] ?? Number.NaN) * inputs.K_reading_per_sin) / inputs.L_mm,
      }
    },
    'IN-09': ({ rotation_deg, cross_lean_deg, length_m }) => {
      const across = Array.from({ length: length_m * 2 }, () => offset(0.5, cross_lean_deg))
      return total(errorOf(rotationShape(across), sine(rotation_deg)))
    },
    'IN-10': ({ dz_mm, theta_bottom_deg, theta_top_deg }) => {
      const sines = Array.from({ length: 61 }, (_, at) =>
        sine(theta_top_deg + ((theta_bottom_deg - theta_top_deg) * at) / 60),
      )
      return Math.abs(total(errorOf(depthShape(sines), dz_mm)))
    },
    'IN-11': ({ L_m, theta0_deg, theta1_deg }) => offset(L_m, theta1_deg) - offset(L_m, theta0_deg),
    'IN-12': (inputs) => {
      const { increments, cumulative } = stringOf(inputs)
      return { incremental: increments, cumulative_top_of_gauge: cumulative }
    },
    'IN-13': (inputs) => ({ cumulative_top_of_gauge: stringOf(inputs).cumulative }),
    'IN-14': ({ L_m, theta_deg }) =>
      verticalDepthMetres(
        L_m.map((lengthMetres: number, at: number) => ({ lengthMetres, tiltDegrees: theta_deg[at] })),
      ),
    'IN-15': (inputs) => eastNorth(inputs, 'clockwise'),
    'IN-16': (inputs) => eastNorth(inputs, 'counter-clockwise'),
    'IN-17': ({ intervals: count, dA_mm, twist_total_deg, azimuth_top_deg }) => {
      const derived = deriveMeasured({
        instrument: {
          kind: 'in-place-inclinometer',
          location: 'I-place',
          fixedEnd: 'toe',
          axisBearingDegrees: azimuth_top_deg,
        },
        spiralSurveys: [
          {
            location: 'I-place',
            depthMetres: count / 2,
            spiralDegrees: twist_total_deg,
            surveyedAt: 0,
            surveyedBy: 'surveyor',
          },
        ],
        points: Array.from({ length: count }, (_, at) => ({
          id: `T${at}`,
          depthMetres: 0.25 + at / 2,
          gaugeLengthMetres: 0.5,
          read: { 'inclination-a': dA_mm, 'inclination-b': 0 },
        })),
      })
      return { N: derived['I/displacement-north'], E: derived['I/displacement-east'] }
    },
    // One segment whose top moved against its base, and the head surveyed: what is left is the toe's.
    'IN-18': ({ cumulative_bottom_fixed_top_mm, surveyed_top_mm }) =>
      deriveMeasured({
        instrument: {
          kind: 'in-place-inclinometer',
          fixedEnd: 'surveyed-head',
          axisBearingDegrees: 0,
          surveyedPoint: 'SP',
          surveyMaximumAgeDays: 7,
        },
        points: [{ id: 'T0', depthMetres: 1, read: { 'inclination-a': cumulative_bottom_fixed_top_mm } }],
        others: [{ id: 'SP', read: { 'displacement-east': 0, 'displacement-north': surveyed_top_mm } }],
      })['T0/deflection'],
  },
}
