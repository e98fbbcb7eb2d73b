import { createMemo, createRoot, createSignal } from 'solid-js'
import type { PlacedInstrument, PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'

const [siteDocument, setSiteDocument] = createSignal<SiteDocument | null>(null)
const [stateDocument, setStateDocument] = createSignal<StateDocument | null>(null)

/** The open site: all that draws it but its readings. Null until it has arrived. */
export { siteDocument, stateDocument }

/** Takes the site that is to be shown; the states of another site go with it. */
export function showSite(document: SiteDocument): void {
  if (siteDocument()?.facts.id !== document.facts.id) setStateDocument(null)
  setSiteDocument(document)
}

/** Takes the latest states; those of another site are left aside. */
export function showStates(document: StateDocument): void {
  if (siteDocument()?.facts.id === document.site) setStateDocument(document)
}

interface SiteLookup {
  readonly seriesById: ReadonlyMap<string, Series>
  readonly seriesByNumber: ReadonlyMap<number, Series>
  readonly seriesOfPoint: ReadonlyMap<string, readonly Series[]>
  /** Since when a series is out of use, by its number; absent: it is in use. */
  readonly endOfSeries: ReadonlyMap<number, number>
  readonly pointById: ReadonlyMap<string, PlacedPoint>
  readonly instrumentById: ReadonlyMap<string, PlacedInstrument>
}

/** Keys of the open site's records; empty maps while none is open. */
export const siteLookup = createRoot(() => createMemo((): SiteLookup => lookUp(siteDocument())))

function lookUp(document: SiteDocument | null): SiteLookup {
  const series = document?.series ?? []
  return {
    seriesById: new Map(series.map((one) => [one.id, one])),
    seriesByNumber: new Map(series.map((one) => [one.series, one])),
    seriesOfPoint: groupByPoint(series),
    endOfSeries: document ? seriesEnds(document) : new Map(),
    pointById: new Map((document?.points ?? []).map((point) => [point.id, point])),
    instrumentById: new Map((document?.instruments ?? []).map((one) => [one.id, one])),
  }
}

function groupByPoint(series: readonly Series[]): ReadonlyMap<string, readonly Series[]> {
  const groups = new Map<string, Series[]>()
  for (const one of series) {
    const group = groups.get(one.point)
    if (group) group.push(one)
    else groups.set(one.point, [one])
  }
  return groups
}
