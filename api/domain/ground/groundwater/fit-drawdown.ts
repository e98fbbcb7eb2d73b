import { accept, type Outcome, reject } from '../../outcome.ts'
import { fitCurve } from '../../statistics/curve-fit.ts'
import { estimated, given } from '../analysis.ts'
import type { Aquifer } from './drawdown.ts'
import { compareDrawdown, type DrawdownComparison, type MeasuredDrawdown } from './measured-drawdown.ts'
import { drawdownOfWells, type PumpedWell, type WaterBoundary } from './wells-and-images.ts'

export interface DrawdownFit extends DrawdownComparison {
  /** As found, in the unit of time of the rates. */
  readonly aquifer: Aquifer
  /** Of ln T and ln S, so about shares. */
  readonly relativeStandardErrors: { readonly transmissivity: number; readonly storativity: number }
}

/**
 * Transmissivity and storativity by least squares of what wells and their images draw down (Theis 1935), readings of
 * equal weight, from those after pumping began; times in days, rates in m³ a day. `start` is where the search begins.
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
  const aquiferOf = ([lnT, lnS]: readonly number[]): Aquifer => ({
    transmissivity: Math.exp(lnT as number),
    storativity: Math.exp(lnS as number),
  })
  const fit = fitCurve(
    (row, parameters) => {
      const place = used[row]
      return place ? drawdownOfWells(aquiferOf(parameters), all, place) : Number.NaN
    },
    used.map((_, row) => row),
    used.map(({ drawdownMetres }) => drawdownMetres),
    [Math.log(start.transmissivity), Math.log(start.storativity)],
  )
  if (!fit.ok)
    return reject({
      code: 'aquifer-undetermined',
      message: `Transmissivity and storativity do not follow from these readings: ${fit.issues[0]?.message ?? 'no fit was found.'}`,
    })
  const aquifer = aquiferOf(fit.value.parameters)
  const found = compareDrawdown(aquifer, wells, boundary, after, 'd')
  if (!found.ok) return found
  const [ofT, ofS] = fit.value.standardErrors as [number, number]
  const perSecond = aquifer.transmissivity / 86_400
  return accept({
    ...found.value,
    method: `Transmissivity and storativity by least squares through ${used.length} readings of equal weight. ${found.value.method}`,
    parameters: found.value.parameters.filter(({ unit, name }) => unit !== 'm2/s' && name !== 'storativity'),
    found: [
      estimated('transmissivity', perSecond, 'm2/s', perSecond * ofT),
      estimated('storativity', aquifer.storativity, '', aquifer.storativity * ofS),
      given('root mean square of measured less computed', found.value.rootMeanSquareMetres, 'm'),
    ],
    remarks: [
      ...found.value.remarks,
      'Standard errors hold for residuals that do not depend on each other; those of one piezometer do, so the figures are known less well than stated.',
      'What the method leaves out, such as a wall, is told as another transmissivity: heed the differences before the figures are used.',
    ],
    aquifer,
    relativeStandardErrors: { transmissivity: ofT, storativity: ofS },
  })
}
