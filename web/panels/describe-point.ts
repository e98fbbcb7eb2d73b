import type { PlacedPoint, Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { quality } from '#domain/reduction/quality.ts'
import { doubtedOfSymbol } from '../derived/doubted-of-symbol.ts'
import type { LaterArrival } from '../derived/known-then.ts'
import { notesOfLast } from '../derived/notes-of-value.ts'
import type { PlanSymbol } from '../derived/plan-symbols.ts'
import { contradictionRemark } from '../state/contradicted-verdicts.ts'
import { foundOf } from '../state/found-of-values.ts'
import { countedAtClock, laterAtClock, statesAtClock } from '../state/series-states.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { formatAge, formatShortInstant } from '../ui/format-instant.ts'
import { formatShare, formatValue, readableDecimals, withUnit } from '../ui/format-value.ts'
import { isSilent, standingName, standingOf } from '../ui/state-scale.ts'

/**
 * Value, state, share and age of a series in one line; of one that is out of use by then, since when and what it last
 * said. `later`: how its newest value taken by then came later; undefined: none did; null: not told.
 */
export function describeState(
  series: Series,
  state: SeriesState | undefined,
  atEpochMs: number,
  levelNames: readonly string[],
  later: LaterArrival | null | undefined = null,
): string {
  const outOfUse = outOfUseWords(series, state, atEpochMs)
  if (outOfUse) return outOfUse
  if (!state || state.atEpochMs === null)
    return later ? `No reading received for long · ${arrivalWords(later, state)}` : 'No reading yet'
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
    later ? arrivalWords(later, state) : receivedWords(state, later),
    foundOf()(series.id, state.atEpochMs),
    ...notesOfLast(state),
  ]
  return parts.filter((part) => part !== '').join(' · ')
}

/**
 * That the newest value of a series came later than the instant: whether the one shown did, too. While the clock runs, a
 * value within its hour may not be shown though it is the newest. `short`: without when it was taken.
 */
export function arrivalWords(
  { measuredAtEpochMs, receivedAtEpochMs, knownAtEpochMs }: LaterArrival,
  shown: SeriesState | undefined,
  length: 'whole' | 'short' = 'whole',
): string {
  const zone = siteDocument()?.facts.timeZone ?? 'UTC'
  const [taken, arrived] = [measuredAtEpochMs, receivedAtEpochMs].map((at) => formatShortInstant(at, zone))
  const shownAt = shown?.atEpochMs ?? null
  if (shownAt === null || (knownAtEpochMs !== null && shownAt <= knownAtEpochMs))
    return length === 'short'
      ? `newer arrived ${arrived}`
      : `newer value of ${taken} arrived ${arrived}, does not count here`
  if (length === 'short') return `arrived ${arrived}`
  return shownAt === measuredAtEpochMs
    ? `measured by then, arrived ${arrived}`
    : `measured by then, came later; that of ${taken} arrived ${arrived}`
}

const receivedWords = (state: SeriesState, later: null | undefined): string => {
  if ((state.quality & quality.receivedLate) === 0) return ''
  return later === null ? 'came in late, perhaps after this instant' : 'came in late, but by this instant'
}

/** The same for what colours a measuring point, at the clock. */
export function describePoint(point: PlacedPoint | undefined, atEpochMs: number): string {
  const series = siteLookup().seriesByNumber.get(point?.primarySeries ?? -1)
  const judged = statesAtClock()
  if (!series) return 'No series of its own'
  const outOfUse = outOfUseWords(series, judged?.states.get(series.series), atEpochMs)
  if (outOfUse) return outOfUse
  if (!judged) return 'Being worked out for this instant'
  const state = judged.states.get(series.series)
  return withRemark(
    describeState(series, state, atEpochMs, levelNames(), laterOf(series.series)),
    siteLookup().seriesOfPoint.get(series.point) ?? [],
  )
}

/** Since when what colours a point is out of use and what it last said; null: it is in use at that instant. */
function outOfUseWords(series: Series, state: SeriesState | undefined, atEpochMs: number): string | null {
  const end = siteLookup().endOfSeries.get(series.series) ?? Number.POSITIVE_INFINITY
  if (end > atEpochMs) return null
  const decimals = readableDecimals(series.decimals, series.standardUncertainty)
  const last =
    state?.value == null || state.atEpochMs === null
      ? ''
      : `last ${withUnit(formatValue(state.value, decimals), series.unit)}, ${formatAge(atEpochMs - state.atEpochMs)} old`
  const reached = (state?.level ?? 0) > 0 ? `${standingName(standingOf(state), levelNames())} by it` : ''
  return [endWords(end), last, reached].filter((part) => part !== '').join(' · ')
}

const endWords = (endEpochMs: number): string =>
  `Out of use since ${formatShortInstant(endEpochMs, siteDocument()?.facts.timeZone ?? 'UTC')}: nothing is measured there`

/** A symbol on the plan in words. */
export function describeSymbol(symbol: PlanSymbol | null): string {
  if (!symbol) return 'Not in use at this instant'
  const { standing, noLevel, channels, outOfUse, outOfUseSinceEpochMs } = symbol
  if (standing === 'out-of-use') return endWords(outOfUseSinceEpochMs ?? 0)
  const silence = symbol.allLate ? 'no current data' : 'part of it without current data'
  const parts = [
    standingName(standing, levelNames()),
    (symbol.allLate && standing === 'late') || !(symbol.allLate || symbol.partLate) ? '' : silence,
    noLevel === 0 || noLevel === channels ? '' : `${noLevel} of its ${channels} channels without a level`,
    outOfUse === 0 ? '' : `${outOfUse} of its channels out of use`,
    symbol.share === null ? '' : `${formatShare(symbol.share)} of the first level`,
    doubtedWords(symbol),
    symbol.cameLater ? `some of it measured by then arrived later${notCounted()}` : '',
    symbol.ageMs === null ? 'no reading yet' : `oldest reading ${formatAge(symbol.ageMs)} old`,
  ]
  return withRemark(
    parts.filter((part) => part !== '').join(' · '),
    [symbol.instrument, ...symbol.points].flatMap((id) => siteLookup().seriesOfPoint.get(id) ?? []),
  )
}

/** That newer data contradict a verdict on a point stands beside what is read there, and hides nothing of it. */
function withRemark(text: string, series: readonly Series[]): string {
  const remark = contradictionRemark([...new Set(series.map(({ id }) => id))])
  return remark === '' ? text : `${text} · ${remark}`
}

/** What persons found of the values that a symbol stands for. */
function doubtedWords(symbol: PlanSymbol): string {
  const document = siteDocument()
  return document ? doubtedOfSymbol(symbol, document, statesAtClock()?.states, foundOf()) : ''
}

const notCounted = () => (countedAtClock() === 'known' ? ' and does not count' : '')

/** Null: not told. */
const laterOf = (series: number): LaterArrival | null | undefined => {
  // At the present all that is shown has been received.
  if (countedAtClock() === null) return undefined
  const later = laterAtClock()
  return later === null ? null : later.get(series)
}

const levelNames = () => siteDocument()?.facts.levelNames ?? []
