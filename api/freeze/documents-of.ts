import type { FrozenRecords } from '#contract/frozen-records.ts'
import type { StandingApproval } from '#domain/approval/approved-stretches.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { minutesOfSite } from '#domain/meeting/minutes-of-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Alerts } from '../alerts/alerts.ts'
import { networkDocument } from '../network/network-document.ts'
import type { Recipe } from '../slices/recipe.ts'
import { recipeOfInstrument } from '../slices/recipe-of-instrument.ts'
import { buildSiteDocument } from '../slices/site-document.ts'
import type { SliceIndex } from '../slices/slice-index.ts'
import { buildStateDocument } from '../slices/state-document.ts'
import type { SiteProgressMark } from '../store/frozen-set-verbs.ts'
import type { Store } from '../store/store.ts'
import { alertsThen } from './alerts-then.ts'
import type { FrozenDocument } from './frozen-parts.ts'

export interface DocumentsRequest {
  /** Bounded by receipt. */
  readonly store: Store
  readonly alerts: Pick<Alerts, 'evaluated'>
  /** With the cut-off as the present of the site. */
  readonly model: SiteModel
  readonly recipe: Recipe
  readonly index: SliceIndex
  readonly mark: SiteProgressMark
  readonly cutOffEpochMs: number
  readonly emptyFolder: string
  /** The set holds every reading that is here, and its cut-off is the present of the site. */
  readonly isOfThePresent: boolean
  readonly now: () => number
}

/** The documents of a set, and the approvals by which its readings are counted. */
export async function documentsOf(request: DocumentsRequest) {
  const { store, model, recipe, index, cutOffEpochMs } = request
  const site = model.facts.id
  const grid = openGridOfSite(model.facts, model.controlPoints)
  if (!grid.ok) throw new Error(grid.issues.map((issue) => issue.message).join(' '))
  const recipeNow = recipeOfInstrument(model, recipe)
  const siteDocument = buildSiteDocument(model, recipe.series, grid.value, cutOffEpochMs, recipeNow)
  const documents = {
    site: siteDocument,
    state: buildStateDocument(model, recipe.series, index, cutOffEpochMs),
    alerts: await alertsOfSet(request),
    network: await networkDocument(store, site, model, cutOffEpochMs),
    slices: { site, revision: index.revision, slices: frozenSlices(site, index) },
    records: {
      calibrations: model.calibrations,
      wiring: model.wiring,
      sensorBarometers: model.sensorBarometers,
      ...(model.loggerClocks.length === 0 ? {} : { loggerClocks: model.loggerClocks }),
      minutes: minutesOfSite(model),
    } satisfies FrozenRecords,
  } satisfies Record<FrozenDocument, unknown>
  const approvals: readonly StandingApproval[] = siteDocument.approvals
  return { documents, approvals }
}

/** Where they are read: by name alone, which carries their content's hash, since the set's id is not known yet. */
const frozenSlices = (site: string, { months }: SliceIndex) =>
  Object.keys(months)
    .toSorted()
    .flatMap((month) => months[month]?.slices ?? [])
    .map((slice) => ({
      ...slice,
      url: `/slices/${site}/frozen/${slice.url.slice(slice.url.lastIndexOf('/') + 1)}`,
    }))

async function alertsOfSet({
  store,
  alerts,
  model,
  mark,
  cutOffEpochMs,
  emptyFolder,
  isOfThePresent,
  now,
}: DocumentsRequest) {
  const { standing, ways } = await alerts.evaluated(model.facts.id, cutOffEpochMs)
  const { revision, behind, failure } = standing.evaluation
  const isOfTheSet = isOfThePresent && !behind && failure === null && revision === mark.revision
  return alertsThen({
    store,
    model,
    cutOffEpochMs,
    standing: isOfTheSet ? standing : null,
    ways,
    emptyFolder,
    drillsAtEpochMs: model.facts.invented ? now() : cutOffEpochMs,
  })
}
