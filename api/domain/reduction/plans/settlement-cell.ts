import { accept, type Outcome, reject } from '../../outcome.ts'
import type { Instrument } from '../../site/tables.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'
import { planLiquidColumn } from './liquid-column.ts'
import { combinationBundles } from './made-series.ts'
import { decimalsOf, type PlanSite, sensorsOf, unitFaults } from './plan-site.ts'
import { measuredSlots } from './slots.ts'
import { surveyedSlot } from './surveyed-slot.ts'

/**
 * Settlement of cells from what they settle against their reservoir and what the reservoir itself settles, by its
 * surveys. Nothing where the reservoir is not surveyed: a settlement relative to a moving tank is not one. Of cells that
 * read the pressure of their liquid, the settlement against the reservoir.
 */
export function planSettlementCell(
  instrument: Instrument,
  site: PlanSite,
): Outcome<readonly DerivedBundle[]> {
  const points = site.points.filter((point) => point.instrument === instrument.id)
  const sensors = sensorsOf(points, site, 'relative-settlement')
  if (sensors.length === 0) return planLiquidColumn(instrument, site)
  if ((instrument.surveyedPoint ?? null) === null) return accept([])
  const faults = unitFaults(instrument, sensors, 'mm')
  if (faults.length > 0) return reject(...faults)
  const reservoir = surveyedSlot(instrument, site, 'settlement')
  if (!reservoir.ok) return reservoir
  const cells = measuredSlots(points, sensors)
  const made = cells.map(({ point }, slot) => ({
    output: {
      id: `${point}/settlement`,
      point,
      measure: 'settlement' as const,
      unit: 'mm',
      decimals: decimalsOf(sensors),
      positiveMeans: `settlement, downwards: against the reservoir, and that of the reservoir, surveyed at ${reservoir.value.point}`,
    },
    combination: {
      constant: 0,
      terms: [
        { slot, weight: 1 },
        { slot: cells.length, weight: 1 },
      ],
      says: `Settlement of ${point} against the reservoir, and of the reservoir at ${reservoir.value.point}`,
      formula: 's = s against the reservoir + s reservoir',
    },
  }))
  return accept(combinationBundles(instrument, [...cells, reservoir.value], made, sensors))
}
