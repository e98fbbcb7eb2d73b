import { createMemo, createSignal } from 'solid-js'
import {
  compareSettlement,
  type MeasuredSettlement,
} from '#domain/ground/consolidation/computed-and-measured.ts'
import { settlementFromPressures } from '#domain/ground/consolidation/settlement-from-pressures.ts'
import { compressibleLayers, excessOfTips } from '#domain/ground/consolidation/string-of-tips.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { consolidationStart } from '../../derived/ground/computed-settlement.ts'
import { levelOfDeepest } from '../../derived/ground/string-pressures.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createSettledPlaces } from './settled-places.ts'
import { createTipPressures } from './tip-pressures.ts'

/** A hole with its pressures at two instants, its layers, and what was measured near it. */
export function createLayers() {
  const [since, setSince] = createSignal<number | null>(null)
  const sinceEpochMs = () => {
    return since() ?? consolidationStart(siteDocument()?.stages ?? [], clockEpochMs() ?? 0)
  }
  const { pressures, tips: allTips, remarks } = createTipPressures(sinceEpochMs)
  const settled = createSettledPlaces(sinceEpochMs)
  const locations = createMemo(() => {
    const bored = new Set(allTips().map(({ point }) => point.location))
    return (siteDocument()?.strata ?? [])
      .filter(
        ({ compressibilityM2PerKn, location }) => compressibilityM2PerKn !== null && bored.has(location),
      )
      .map(({ location }) => location)
      .filter((location, place, all) => all.indexOf(location) === place)
  })
  const [chosen, setChosen] = createSignal<string | null>(null)
  const location = () => {
    const wanted = chosen() ?? selectedInstrument()?.location
    return locations().find((one) => one === wanted) ?? locations()[0] ?? null
  }
  const [draining, setDraining] = createSignal<readonly string[]>([])
  const strata = () => (siteDocument()?.strata ?? []).filter((one) => one.location === location())
  const [restLevel, setRestLevel] = createSignal<number | null>(null)
  const [within, setWithin] = createSignal(15)
  const tips = () => (pressures() ?? []).filter((one) => one.location === location())
  const unitWeight = () => {
    const document = siteDocument()
    return document ? siteWater(document.facts).unitWeightKnPerM3 : 9.81
  }
  const restLevelMetres = () => restLevel() ?? levelOfDeepest(tips(), unitWeight()) ?? 0
  const outcome = createMemo(() =>
    pressures() === null || location() === null
      ? null
      : settlementFromPressures(
          compressibleLayers(strata(), new Set(draining())),
          excessOfTips(tips(), { start: restLevelMetres(), now: restLevelMetres() }, unitWeight()),
        ),
  )
  const measured = (): readonly MeasuredSettlement[] => {
    const at = siteDocument()?.locations.find(({ id }) => id === location())
    if (!at) return []
    return (settled.places() ?? []).flatMap((one) =>
      Math.hypot(one.eastingMetres - at.eastingMetres, one.northingMetres - at.northingMetres) <= within()
        ? [
            {
              id: one.id,
              settlementMm: one.valueMm,
              standardUncertaintyMm: one.standardUncertaintyMm,
              late: one.late,
            },
          ]
        : [],
    )
  }
  const compared = createMemo(() => {
    const found = outcome()
    return found?.ok && measured().length > 0 ? compareSettlement(found.value, measured()) : null
  })
  return {
    sinceEpochMs,
    setSince,
    locations,
    location,
    setChosen,
    strata,
    draining,
    setDraining,
    restLevelMetres,
    setRestLevel,
    within,
    setWithin,
    remarks,
    outcome,
    compared,
  }
}
