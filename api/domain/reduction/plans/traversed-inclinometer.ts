import { accept, type Issue, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, type MeasuringPoint, siteTables } from '../../site/tables.ts'
import type { Measure } from '../../site/vocabulary.ts'
import type { DerivedBundle, DerivedSlot, Term, TraverseCheck } from '../rules/derived-bundle.ts'
import { joinFaults } from './joined-segments.ts'
import { combinationBundles, type MadeSeries } from './made-series.ts'
import { decimalsOf, instrumentIssue, type PlanSite, pointsOf, sensorsOf, unitFaults } from './plan-site.ts'
import { slotsOf } from './slots.ts'
import { traversedMovement } from './traversed-movement.ts'

/**
 * What a traversed inclinometer derives from its face readings, one point an interval of the casing, channels
 * `face-a0`, `face-a180` (and `face-b0`, `face-b180`) reduced to mm over the interval, all rows of a survey at one
 * instant: checksum A0 + A180, deviation (A0 − A180)/2, and where every interval states its zero survey's deviation,
 * deflection from the stated still end and the greatest of them; with both axes and the bearing of A, movement of the
 * far end to the east and north. A missing face leaves no value: never A0 alone.
 */
export function planTraversedInclinometer(
  instrument: Instrument,
  site: PlanSite,
): Outcome<readonly DerivedBundle[]> {
  const points = pointsOf(instrument, site)
  const a = axisOf(instrument, site, points, 'a')
  if (!a.ok) return a
  const b = axisOf(instrument, site, points, 'b')
  return b.ok ? accept([...a.value, ...b.value, ...traversedMovement(instrument, site, points)]) : b
}

function axisOf(
  instrument: Instrument,
  site: PlanSite,
  points: readonly MeasuringPoint[],
  axis: 'a' | 'b',
): Outcome<readonly DerivedBundle[]> {
  const ahead = sensorsOf(points, site, `face-${axis}0`)
  const turned = sensorsOf(points, site, `face-${axis}180`)
  const sensors = [...ahead, ...turned]
  if (sensors.length === 0) return accept([])
  const [faces0, faces180] = [slotsOf(points, ahead), slotsOf(points, turned)]
  const faults = [
    ...unitFaults(instrument, sensors, 'mm'),
    ...faceFaults(instrument, axis, faces0, faces180),
    ...joinFaults(instrument, points, faces0),
  ]
  if (faults.length > 0) return reject(...faults)
  const decimals = decimalsOf(sensors)
  const made = faces0.flatMap(({ point }, slot) => ofInterval(point, slot, faces0.length, axis, decimals))
  const sums = deflections(instrument, points, faces0, axis, decimals)
  if (!sums.ok) return sums
  const check = checkOf(instrument, points, faces0, axis)
  return accept(
    combinationBundles(
      instrument,
      [...faces0, ...faces180],
      [...made, ...sums.value],
      sensors,
      greatestOf(instrument, axis, decimals, made.length, sums.value.length),
    ).map((bundle) => (check === null ? bundle : { ...bundle, traverse: check })),
  )
}

/** Null where it is not stated where the casing stands still, or what its zero survey was. */
function checkOf(
  { stillBelowMetres }: Instrument,
  points: readonly MeasuringPoint[],
  faces: readonly DerivedSlot[],
  axis: 'a' | 'b',
): TraverseCheck | null {
  const stillBelow = stillBelowMetres ?? null
  const byId = new Map(points.map((point) => [point.id, point]))
  const intervals = faces.flatMap(({ point }) => byId.get(point) ?? [])
  const zeros = intervals.flatMap((one) => one[zeroColumns[axis]] ?? [])
  const across = intervals.flatMap((one) => one[zeroColumns[axis === 'a' ? 'b' : 'a']] ?? [])
  const lengths = intervals.flatMap(({ gaugeLengthMetres }) => gaugeLengthMetres ?? [])
  if (stillBelow === null || zeros.length < faces.length || lengths.length < faces.length) return null
  return {
    zeroDeviationsMm: zeros,
    acrossZeroDeviationsMm: across.length < faces.length ? null : across,
    lengthsMetres: lengths,
    still: [...faces.keys()].filter(
      (slot) => (faces[slot]?.depthMetres ?? 0) - (lengths[slot] ?? 0) / 2 >= stillBelow - 1e-9,
    ),
    stillBelowMetres: stillBelow,
  }
}

const zeroColumns = { a: 'zeroDeviationAMm', b: 'zeroDeviationBMm' } as const

/** The greatest deflection, carried by the instrument itself; null where none is made. */
const greatestOf = ({ id }: Instrument, axis: 'a' | 'b', decimals: number, first: number, count: number) =>
  count === 0
    ? null
    : {
        output: {
          id: `${id}/${deflectionOf[axis]}`,
          point: id,
          measure: deflectionOf[axis],
          unit: 'mm',
          decimals,
          positiveMeans: null,
        },
        of: Array.from({ length: count }, (_, place) => first + place),
      }

const deflectionOf = { a: 'deflection', b: 'deflection-b' } as const

/** (A0 − A180) / 2 of an interval: a bias of the probe is in both and goes out. */
const deviationTerms = (slot: number, count: number, sign: 1 | -1): readonly Term[] => [
  { slot, weight: sign / 2 },
  { slot: count + slot, weight: -sign / 2 },
]

function ofInterval(
  point: string,
  slot: number,
  count: number,
  axis: 'a' | 'b',
  decimals: number,
): readonly MadeSeries[] {
  const letter = axis.toUpperCase()
  const series = (measure: Measure, positiveMeans: string) => ({
    id: `${point}/${measure}`,
    point,
    measure,
    unit: 'mm',
    decimals,
    positiveMeans,
  })
  return [
    {
      output: series(`checksum-${axis}`, 'twice the bias of the probe; it should be the same at every depth'),
      combination: {
        constant: 0,
        terms: [
          { slot, weight: 1 },
          { slot: count + slot, weight: 1 },
        ],
        says: `Checksum of ${point}`,
        formula: `${letter}0 + ${letter}180`,
      },
    },
    {
      output: series(`deviation-${axis}`, `top of the interval leans along positive ${letter}`),
      combination: {
        constant: 0,
        terms: deviationTerms(slot, count, 1),
        says: `Deviation over ${point}, the mean of its two faces`,
        formula: `(${letter}0 − ${letter}180) / 2`,
      },
    },
  ]
}

function deflections(
  instrument: Instrument,
  points: readonly MeasuringPoint[],
  faces: readonly DerivedSlot[],
  axis: 'a' | 'b',
  decimals: number,
): Outcome<readonly MadeSeries[]> {
  const column = zeroColumns[axis]
  const byId = new Map(points.map((point) => [point.id, point]))
  const zeros = faces.map(({ point }) => byId.get(point)?.[column] ?? null)
  if (zeros.every((zero) => zero === null)) return accept([])
  const missing = faces.find((_, slot) => zeros[slot] === null)
  if (missing)
    return reject({
      code: 'zero-survey-incomplete',
      file: siteTables.points.file,
      column,
      value: '',
      expected: 'mm, as at its neighbours',
      message: `${missing.point} of ${instrument.id} has no deviation of the zero survey along ${axis.toUpperCase()}, but other intervals have. Give it, or leave all of them empty.`,
    })
  const { fixedEnd } = instrument
  if (fixedEnd !== 'toe' && fixedEnd !== 'head')
    return reject(
      instrumentIssue(
        instrument,
        'fixedEnd',
        'fixed-end-expected',
        'toe or head',
        `${instrument.id} states no end that is assumed still, so its movements cannot be added up. Write toe or head.`,
      ),
    )
  const toe = fixedEnd === 'toe'
  const sign = toe ? 1 : -1
  const outward = toe ? [...faces.keys()].toReversed() : [...faces.keys()]
  return accept(
    outward.map((last, index) => {
      const used = outward.slice(0, index + 1)
      const { point } = faces[last] as DerivedSlot
      const measure = deflectionOf[axis]
      return {
        output: { id: `${point}/${measure}`, point, measure, unit: 'mm', decimals, positiveMeans: null },
        combination: {
          constant: used.reduce((sum, slot) => sum - sign * (zeros[slot] ?? 0), 0),
          terms: used.flatMap((slot) => deviationTerms(slot, faces.length, sign)),
          says: `Deflection of the ${toe ? 'top' : 'base'} of ${point} from the ${fixedEnd}, against the zero survey`,
          formula: toe ? 'd = Σ (deviation − zero)' : 'd = −Σ (deviation − zero)',
        },
      }
    }),
  )
}

const faceFaults = (
  { id }: Instrument,
  axis: 'a' | 'b',
  faces0: readonly DerivedSlot[],
  faces180: readonly DerivedSlot[],
): readonly Issue[] =>
  ([faces0, faces180] as const).flatMap((faces, which) =>
    faces
      .filter(({ series }) => series.length === 0)
      .map(({ point }) => {
        const face = `face-${axis}${which === 0 ? 0 : 180}`
        return {
          code: 'face-without-sensor',
          file: siteTables.sensors.file,
          column: 'measure',
          value: face,
          message: `Interval ${point} of ${id} has no ${face} sensor; one face alone carries the bias of the probe. Add it, or take the point out.`,
        }
      }),
  )
