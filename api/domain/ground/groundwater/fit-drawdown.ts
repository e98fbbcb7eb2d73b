import { groupBy } from '../../group-by.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import { type CurveFit, fitCurve } from '../../statistics/curve-fit.ts'
import { estimated, given } from '../analysis.ts'
import type { Aquifer } from './drawdown.ts'
import {
  compareDrawdown,
  type DrawdownComparison,
  type KnownDrawdown,
  type MeasuredDrawdown,
} from './measured-drawdown.ts'
import { drawdownOfWells, type PumpedWell, type WaterBoundary } from './wells-and-images.ts'

export interface DrawdownFit extends DrawdownComparison {
  /** As found, in the unit of time of the rates. */
  readonly aquifer: Aquifer
  /** Of ln T and ln S, so about shares; with three piezometers or more, from the scatter between them. */
  readonly relativeStandardErrors: {
    readonly transmissivity: number
    /** Null where the readings do not tell it and it was held. */
    readonly storativity: number | null
  }
}

/** A fit as plain data, which can be handed from one thread to another: without its function of places. */
export type PlainDrawdownFit = Omit<DrawdownFit, 'at'>

/** `fitDrawdown`, as plain data. */
export function plainDrawdownFit(...request: Parameters<typeof fitDrawdown>): Outcome<PlainDrawdownFit> {
  const fit = fitDrawdown(...request)
  if (!fit.ok) return fit
  const { at: _function, ...plain } = fit.value
  return accept(plain)
}

/**
 * Transmissivity and storativity by least squares of what wells and their images draw down (Theis 1935), readings of
 * equal weight, from those after pumping began; times in days, rates in m³ a day. `start` is in the middle of what is searched.
 */
export function fitDrawdown(
  start: Aquifer,
  wells: readonly PumpedWell[],
  boundary: WaterBoundary | null,
  measured: readonly MeasuredDrawdown[],
): Outcome<DrawdownFit> {
  const began = Math.min(...wells.flatMap(({ rates }) => rates.map(({ from }) => from)))
  const after = measured.map((one) =>
    one.time > began ? one : { ...one, setAside: one.setAside ?? 'It was read before pumping began.' },
  )
  const first = compareDrawdown(start, wells, boundary, after, 'd')
  if (!first.ok) return first
  const { used, wells: all } = first.value
  const fit = fitBoth(start, used, all) ?? fitTransmissivity(start, used, all)
  if (!fit)
    return reject({
      code: 'aquifer-undetermined',
      message:
        'Transmissivity does not follow from these readings: no drawdown by Theis comes near them. Look at the stated figures against them instead.',
    })
  const { aquifer, ofT, ofS } = fit
  const found = compareDrawdown(aquifer, wells, boundary, after, 'd')
  if (!found.ok) return found
  const perSecond = aquifer.transmissivity / 86_400
  return accept({
    ...found.value,
    method: `Transmissivity ${ofS === null ? 'alone' : 'and storativity'} by least squares through ${used.length} readings of equal weight. ${found.value.method}`,
    parameters: found.value.parameters.filter(
      ({ unit, name }) => unit !== 'm2/s' && (ofS === null || name !== 'storativity'),
    ),
    found: [
      estimated('transmissivity', perSecond, 'm2/s', perSecond * ofT),
      ...(ofS === null ? [] : [estimated('storativity', aquifer.storativity, '', aquifer.storativity * ofS)]),
      given('root mean square of measured less computed', found.value.rootMeanSquareMetres, 'm'),
    ],
    remarks: [
      ...found.value.remarks,
      ...(ofS === null
        ? [
            'Storativity cannot be told from these readings, as when all were taken long after pumping began or the differences are larger than what it does: it is held as stated in the records.',
          ]
        : []),
      piezometersOf(used) < leastPiezometers
        ? 'Standard errors hold for residuals that do not depend on each other; those of one piezometer do, so the figures are known less well than stated. With three piezometers that is taken into account.'
        : 'Standard errors take the residuals of one piezometer as depending on each other, those of different ones as not (Liang and Zeger 1986); with few piezometers they are themselves rough.',
      'What the method leaves out, such as a wall, is told as another transmissivity: heed the differences before the figures are used.',
    ],
    aquifer,
    relativeStandardErrors: { transmissivity: ofT, storativity: ofS },
  })
}

interface FittedAquifer {
  readonly aquifer: Aquifer
  readonly ofT: number
  readonly ofS: number | null
}

/**
 * Null where the two cannot be told apart, storativity has a standard error above half of it, or fewer than a tenth of the
 * readings would move by more than the misfit if it were e times as large: a tide that a few early readings share would be told as storativity.
 */
function fitBoth(
  start: Aquifer,
  used: readonly KnownDrawdown[],
  wells: readonly PumpedWell[],
): FittedAquifer | null {
  const aquiferOf = ([lnT, lnS]: readonly number[]): Aquifer => ({
    transmissivity: Math.exp(lnT as number),
    storativity: Math.exp(lnS as number),
  })
  const fit = fitRows(used, wells, aquiferOf, bestStart(start, used, wells))
  if (!fit.ok) return null
  const [ofT, ofS] = errorsByPiezometer(used, wells, aquiferOf, fit.value) as [number, number]
  const misfit = Math.sqrt(fit.value.residualSumOfSquares / used.length)
  const telling = used.filter(
    (place) => Math.abs(slopeOf(place, wells, aquiferOf, fit.value.parameters, 1)) > misfit,
  ).length
  return ofS < 0.5 && telling >= used.length / 10
    ? { aquifer: aquiferOf(fit.value.parameters), ofT, ofS }
    : null
}

function fitTransmissivity(
  start: Aquifer,
  used: readonly KnownDrawdown[],
  wells: readonly PumpedWell[],
): FittedAquifer | null {
  const aquiferOf = ([lnT]: readonly number[]): Aquifer => ({
    ...start,
    transmissivity: Math.exp(lnT as number),
  })
  const fit = fitRows(used, wells, aquiferOf, bestStart(start, used, wells, 0).slice(0, 1))
  if (!fit.ok) return null
  const [ofT] = errorsByPiezometer(used, wells, aquiferOf, fit.value)
  return { aquifer: aquiferOf(fit.value.parameters), ofT: ofT as number, ofS: null }
}

/** With fewer the spread between piezometers tells nothing. */
const leastPiezometers = 3
const piezometersOf = (used: readonly KnownDrawdown[]) => new Set(used.map(({ id }) => id)).size

/**
 * Standard errors of what was fitted, residuals of one piezometer taken to depend on each other: hundreds of readings
 * of one tip that stands behind a wall know no more of the layer than one.
 */
function errorsByPiezometer(
  used: readonly KnownDrawdown[],
  wells: readonly PumpedWell[],
  aquiferOf: (parameters: readonly number[]) => Aquifer,
  { parameters, standardErrors, covariance, residuals, residualStandardDeviation }: CurveFit,
): readonly number[] {
  const groups = [...groupBy([...used.keys()], (row) => (used[row] as KnownDrawdown).id).values()]
  if (groups.length < leastPiezometers) return standardErrors
  const slope = (row: number, at: number) =>
    slopeOf(used[row] as KnownDrawdown, wells, aquiferOf, parameters, at)
  const scores = groups.map((rows) =>
    parameters.map((_, at) =>
      rows.reduce((sum, row) => sum + slope(row, at) * (residuals[row] as number), 0),
    ),
  )
  const share = groups.length / (groups.length - 1)
  const variance = residualStandardDeviation ** 2
  return covariance.map((row) => {
    // A fit that is exact leaves no scatter between piezometers either.
    if (variance === 0) return 0
    const through = scores.map((score) =>
      score.reduce((sum, one, at) => sum + ((row[at] as number) / variance) * one, 0),
    )
    return Math.sqrt(share * through.reduce((sum, one) => sum + one * one, 0))
  })
}

/** Change of a computed drawdown by a parameter. */
function slopeOf(
  place: KnownDrawdown,
  wells: readonly PumpedWell[],
  aquiferOf: (parameters: readonly number[]) => Aquifer,
  parameters: readonly number[],
  at: number,
): number {
  const moved = (by: number) =>
    drawdownOfWells(aquiferOf(parameters.map((one, index) => (index === at ? one + by : one))), wells, place)
  return (moved(1e-5) - moved(-1e-5)) / 2e-5
}

const fitRows = (
  used: readonly KnownDrawdown[],
  wells: readonly PumpedWell[],
  aquiferOf: (parameters: readonly number[]) => Aquifer,
  start: readonly number[],
) =>
  fitCurve(
    (row, parameters) => {
      const place = used[row]
      return place ? drawdownOfWells(aquiferOf(parameters), wells, place) : Number.NaN
    },
    used.map((_, row) => row),
    used.map(({ drawdownMetres }) => drawdownMetres),
    start,
  )

/**
 * ln T and ln S of the best of some around the start, T at its own best for each S: from far off, or from beside that
 * valley, a step may leap to where nothing depends on S.
 */
function bestStart(
  { transmissivity, storativity }: Aquifer,
  used: readonly KnownDrawdown[],
  wells: readonly PumpedWell[],
  stepsOfS = 12,
): readonly [lnT: number, lnS: number] {
  const step = Math.ceil(used.length / 30)
  const some = used.filter((_, row) => row % step === 0)
  const missOf = (aquifer: Aquifer) =>
    some.reduce((sum, one) => sum + (one.drawdownMetres - drawdownOfWells(aquifer, wells, one)) ** 2, 0)
  let best = { transmissivity, storativity, miss: Number.POSITIVE_INFINITY }
  for (let byS = -stepsOfS; byS <= stepsOfS; byS++) {
    const at = storativity * 2 ** (byS / 2)
    for (let byT = -6; byT <= 6; byT++) {
      const aquifer = { transmissivity: transmissivity * 2 ** (byT / 2), storativity: at }
      const miss = missOf(aquifer)
      if (miss < best.miss) best = { ...aquifer, miss }
    }
    const line = fitRows(
      some,
      wells,
      ([lnT]) => ({ transmissivity: Math.exp(lnT as number), storativity: at }),
      [Math.log(best.transmissivity)],
    )
    if (!line.ok) continue
    const aquifer = { transmissivity: Math.exp(line.value.parameters[0] as number), storativity: at }
    const miss = missOf(aquifer)
    if (miss < best.miss) best = { ...aquifer, miss }
  }
  return [Math.log(best.transmissivity), Math.log(best.storativity)]
}
