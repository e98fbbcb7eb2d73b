import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitCurve } from '../../statistics/curve-fit.ts'
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
  /** Of ln T and ln S, so about shares. */
  readonly relativeStandardErrors: {
    readonly transmissivity: number
    /** Null where the readings do not tell it and it was held. */
    readonly storativity: number | null
  }
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
            'Storativity cannot be told from these readings, as when all were taken long after pumping began: it is held as stated in the records.',
          ]
        : []),
      'Standard errors hold for residuals that do not depend on each other; those of one piezometer do, so the figures are known less well than stated.',
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

/** Null where the two cannot be told apart, or storativity is known to no better than a factor of e. */
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
  const [ofT, ofS] = fit.value.standardErrors as [number, number]
  return ofS < 1 ? { aquifer: aquiferOf(fit.value.parameters), ofT, ofS } : null
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
  return { aquifer: aquiferOf(fit.value.parameters), ofT: fit.value.standardErrors[0] as number, ofS: null }
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

/** ln T and ln S of the best of some around the start: from one far off a step may leap to where nothing depends on S. */
function bestStart(
  { transmissivity, storativity }: Aquifer,
  used: readonly KnownDrawdown[],
  wells: readonly PumpedWell[],
  stepsOfS = 6,
): readonly [lnT: number, lnS: number] {
  const step = Math.ceil(used.length / 60)
  const some = used.filter((_, row) => row % step === 0)
  let best: readonly [number, number] = [Math.log(transmissivity), Math.log(storativity)]
  let least = Number.POSITIVE_INFINITY
  for (let byT = -6; byT <= 6; byT++)
    for (let byS = -stepsOfS; byS <= stepsOfS; byS++) {
      const at = { transmissivity: transmissivity * 2 ** (byT / 2), storativity: storativity * 2 ** byS }
      const sum = some.reduce(
        (total, place) => total + (place.drawdownMetres - drawdownOfWells(at, wells, place)) ** 2,
        0,
      )
      if (sum >= least) continue
      least = sum
      best = [Math.log(at.transmissivity), Math.log(at.storativity)]
    }
  return best
}
