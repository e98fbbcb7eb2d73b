import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given, reasonWithoutValue, sortOut } from '../analysis.ts'
import { type Aquifer, wellArgument } from './drawdown.ts'
import { drawdownOfWells, imageOf, type PumpedWell, type WaterBoundary } from './wells-and-images.ts'

/** Drawdown measured at a place and an instant; time in the unit of the pumping rates. */
export interface MeasuredDrawdown {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly time: number
  /** Level before pumping less level now; null: no value known. */
  readonly drawdownMetres: number | null
  readonly standardUncertaintyMetres: number | null
  readonly late: boolean
  /** Why it is not to be compared, where that is known beforehand: a whole sentence. */
  readonly setAside?: string | null
}

export type KnownDrawdown = MeasuredDrawdown & { readonly drawdownMetres: number }

export interface DrawdownComparison extends Analysis<MeasuredDrawdown, KnownDrawdown> {
  /** By Theis, and measured less it; in the order of `used`. */
  readonly computedMetres: readonly number[]
  readonly differenceMetres: readonly number[]
  readonly rootMeanSquareMetres: number
  /** Wells and their images. */
  readonly wells: readonly PumpedWell[]
  /** Drawdown computed at any place and time. */
  readonly at: (place: Pick<MeasuredDrawdown, 'eastingMetres' | 'northingMetres' | 'time'>) => number
}

/**
 * Drawdown of pumped wells in a confined layer (Theis 1935), with image wells in one straight boundary, beside what
 * piezometers show. Refused without a well that pumps, for an aquifer without transmissivity or storativity, with wells
 * on the boundary or on both sides of it, and without a reading. With `timeUnit` d, transmissivity is told per second.
 */
export function compareDrawdown(
  aquifer: Aquifer,
  wells: readonly PumpedWell[],
  boundary: WaterBoundary | null,
  measured: readonly MeasuredDrawdown[],
  timeUnit: 'd' | null = null,
): Outcome<DrawdownComparison> {
  if (!(aquifer.transmissivity > 0 && aquifer.storativity > 0))
    return refuse('aquifer-unfit', 'Transmissivity and storativity must be above 0. State both of the layer.')
  if (wells.length === 0 || !wells.every(({ radiusMetres }) => radiusMetres > 0))
    return refuse('wells-unfit', 'Drawdown needs at least one pumped well, each with a radius above 0.')
  if (boundary && Math.hypot(boundary.to[0] - boundary.from[0], boundary.to[1] - boundary.from[1]) === 0)
    return refuse(
      'boundary-unfit',
      'The boundary goes through one place only, so it has no direction. Give two.',
    )
  const sides = new Set(boundary ? wells.map((well) => sideOf(boundary, well)) : [])
  if (sides.has(0) || sides.size > 1)
    return refuse(
      'boundary-unfit',
      'Wells stand on the boundary or on both sides of it, where an image undoes its own well. Correct the places or the boundary.',
    )
  const [wellSide] = sides
  const sorted = sortOut<MeasuredDrawdown, KnownDrawdown>(
    measured,
    (one) =>
      reasonToLeaveOut(one) ??
      (boundary && wellSide !== undefined && sideOf(boundary, one) === -wellSide
        ? 'It stands beyond the boundary, where an image well says nothing.'
        : null),
  )
  const { used } = sorted
  if (used.length === 0)
    return refuse('drawdown-unknown', 'No piezometer has a drawdown at a known place and time to compare.')
  const all = boundary ? [...wells, ...wells.map((well) => imageOf(well, boundary))] : wells
  const at: DrawdownComparison['at'] = (place) => drawdownOfWells(aquifer, all, place)
  const computedMetres = used.map(at)
  const differenceMetres = used.map(
    ({ drawdownMetres }, row) => drawdownMetres - (computedMetres[row] as number),
  )
  const rootMeanSquareMetres = Math.sqrt(
    differenceMetres.reduce((sum, one) => sum + one * one, 0) / used.length,
  )
  const early = used.filter((place) => wells.every((well) => hardlyReaches(aquifer, well, place))).length
  return accept({
    ...sorted,
    method: `Theis 1935 for ${wells.length === 1 ? 'one well' : `${wells.length} wells`} in a confined layer${wells.length === 1 ? '' : ', added up'}${boundary ? `, with an image of each in ${boundary.kind === 'no flow' ? 'a boundary that lets nothing through' : 'a boundary that holds the level'}` : ''}.`,
    parameters: [
      timeUnit === 'd'
        ? given('transmissivity', aquifer.transmissivity / secondsPerDay, 'm2/s')
        : given('transmissivity, m² per unit of time', aquifer.transmissivity, ''),
      given('storativity', aquifer.storativity, ''),
      given('wells', wells.length, ''),
      given('images', all.length - wells.length, ''),
    ],
    found: [given('root mean square of measured less computed', rootMeanSquareMetres, 'm')],
    remarks: [
      'The layer is taken as confined, even and without end but for the boundary stated: leakage, a free water table, partly penetrating wells and losses at the screen are not in it.',
      ...(early > 0
        ? [`${early} readings are so early or far away that hardly any drawdown is expected yet.`]
        : []),
    ],
    computedMetres,
    differenceMetres,
    rootMeanSquareMetres,
    wells: all,
    at,
  })
}

const secondsPerDay = 86_400

/** 1 left of the boundary as it runs, −1 right of it, 0 on it. */
const sideOf = (
  { from, to }: WaterBoundary,
  { eastingMetres, northingMetres }: Pick<MeasuredDrawdown, 'eastingMetres' | 'northingMetres'>,
): number =>
  Math.sign((to[0] - from[0]) * (northingMetres - from[1]) - (to[1] - from[1]) * (eastingMetres - from[0])) ||
  0

/** Not pumped yet, or u above 1: less than a fifth of Q/(4πT). */
function hardlyReaches(aquifer: Aquifer, well: PumpedWell, place: KnownDrawdown): boolean {
  const pumped = place.time - Math.min(...well.rates.map(({ from }) => from))
  const away = Math.hypot(
    place.eastingMetres - well.eastingMetres,
    place.northingMetres - well.northingMetres,
  )
  return !(pumped > 0) || wellArgument(aquifer, Math.max(well.radiusMetres, away), pumped) > 1
}

/** Drawdowns of a piezometer from its levels, m, since pumping began; times in days, as rates in m³ a day need. */
export const drawdownReadings = (
  piezometer: Pick<MeasuredDrawdown, 'id' | 'eastingMetres' | 'northingMetres' | 'standardUncertaintyMetres'>,
  atEpochMs: readonly number[],
  levelMetres: readonly (number | null)[],
  start: { readonly atEpochMs: number; readonly levelMetres: number },
): readonly MeasuredDrawdown[] =>
  atEpochMs.map((instant, at) => {
    const level = levelMetres[at] ?? null
    return {
      ...piezometer,
      time: (instant - start.atEpochMs) / 86_400_000,
      drawdownMetres: level === null ? null : start.levelMetres - level,
      late: false,
    }
  })

function reasonToLeaveOut(one: MeasuredDrawdown): string | null {
  if (!Number.isFinite(one.eastingMetres) || !Number.isFinite(one.northingMetres))
    return 'Its position is not known.'
  if (!Number.isFinite(one.time)) return 'Its instant is not known.'
  if (one.setAside) return one.setAside
  return reasonWithoutValue(one.drawdownMetres, one.late)
}

const refuse = (code: string, message: string) => reject({ code, message })
