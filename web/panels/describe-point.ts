import type { PlacedPoint, Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { markNote, marksOf } from '#domain/flags/reading-checks.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { PlanSymbol } from '../derived/plan-symbols.ts'
import { statesAtClock } from '../state/series-states.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { formatAge } from '../ui/format-instant.ts'
import { formatShare, formatValue, readableDecimals, withUnit } from '../ui/format-value.ts'
import { isSilent, standingName, standingOf } from '../ui/state-scale.ts'

/** Value, state, share and age of a series in one line. */
export function describeState(
  series: Series,
  state: SeriesState | undefined,
  atEpochMs: number,
  levelNames: readonly string[],
): string {
  if (!state || state.atEpochMs === null) return 'No reading yet'
  const decimals = readableDecimals(series.decimals, series.standardUncertainty)
  const value = state.value === null ? 'no value' : withUnit(formatValue(state.value, decimals), series.unit)
  const name = standingName(standingOf(state), levelNames)
  const silent = isSilent(state)
  const parts = [
    silent ? `last ${value}` : value,
    name,
    silent && name !== 'No current data' ? 'no current data' : '',
    silent || state.shareOfFirstLevel === null
      ? ''
      : `${formatShare(state.shareOfFirstLevel)} of the first level`,
    `${formatAge(atEpochMs - state.atEpochMs)} old`,
    (state.quality & quality.receivedLate) === 0 ? '' : 'came in late, perhaps after this instant',
    ...marksOf(state.flags).map(markNote),
  ]
  return parts.filter((part) => part !== '').join(' · ')
}

/** The same for what colours a measuring point, at the clock. */
export function describePoint(point: PlacedPoint | undefined, atEpochMs: number): string {
  const series = siteLookup().seriesByNumber.get(point?.primarySeries ?? -1)
  const judged = statesAtClock()
  if (!series) return 'No series of its own'
  if (!judged) return 'Being worked out for this instant'
  return describeState(series, judged.states.get(series.series), atEpochMs, levelNames())
}

/** A symbol on the plan in words. */
export function describeSymbol(symbol: PlanSymbol | null): string {
  if (!symbol) return 'Not in use at this instant'
  const parts = [
    standingName(symbol.standing, levelNames()),
    symbol.partLate ? 'part of it without current data' : '',
    symbol.share === null ? '' : `${formatShare(symbol.share)} of the first level`,
    symbol.ageMs === null ? 'no reading yet' : `oldest reading ${formatAge(symbol.ageMs)} old`,
  ]
  return parts.filter((part) => part !== '').join(' · ')
}

const levelNames = () => siteDocument()?.facts.levelNames ?? []
