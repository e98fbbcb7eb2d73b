import { surfaceAspects } from '#domain/ground/surface-aspects.ts'
import { surfaceMethods } from '#domain/ground/surface-methods.ts'
import { type InstrumentKind, instrumentKinds } from '#domain/site/vocabulary.ts'
import { readSelection, writeSelection } from './address-selection.ts'
import { type AddressState, emptyAddress } from './address-state.ts'
import { readView, writeView } from './address-view.ts'
import { isOneOf, isStanding, readCount, readInstant, readLine } from './address-words.ts'
import { alertsPages, firstAlertsPage } from './alerts-page.ts'
import { mostCompared } from './compared.ts'
import { countings } from './counted.ts'
import { fieldPages, firstFieldPage } from './field-page.ts'
import { noFilters } from './filters.ts'
import { firstAnalysis, groundAnalyses } from './ground-analysis.ts'
import { firstNetworkPage, networkPages } from './network-page.ts'
import { firstPairing, readPairing, writePairing } from './paired-how.ts'
import { firstPatch, readPatch, writePatch } from './patch.ts'
import { firstLayers, type PlanLayer, planLayers } from './plan-layers.ts'
import { profileAxes } from './profile-look.ts'
import { firstReviewPage, reviewPages } from './review-page.ts'
import { readReviewQuestion } from './review-question.ts'
import { reviewStretches } from './reviewed-series.ts'
import { sheetTabs } from './sheet.ts'

/** The query part of the address, without `?`; what is as at first opening is left out. */
export function writeAddress(state: AddressState): string {
  const query = new URLSearchParams()
  const put = (name: string, text: string, unlessText = '') => {
    if (text !== unlessText) query.set(name, text)
  }
  put('site', state.site ?? '')
  put('frozen', state.frozen ?? '')
  put('at', state.clock === 'present' ? '' : new Date(state.clock).toISOString())
  put('counted', state.counting, countings[0])
  put('selected', writeSelection(state.selection))
  put('without', state.filters.hiddenKinds.join(' '), noFilters.hiddenKinds.join(' '))
  put('standing', state.filters.standings.join(' '))
  put('find', state.filters.text)
  put('with', state.filters.openAlerts ? 'open-alerts' : '')
  put('layers', state.layers.join(' '), firstLayers.join(' '))
  put('since', state.changeFromEpochMs === null ? '' : new Date(state.changeFromEpochMs).toISOString())
  put('between', state.surfaceMethod, surfaceMethods[0])
  put('surface', state.surfaceAspect, surfaceAspects[0])
  put('stratum', state.surfaceStratum ?? '')
  put('view', state.view ? writeView(state.view) : '')
  put('sheet', state.tab, emptyAddress.tab)
  put('ground', state.analysis, firstAnalysis)
  put('field', state.fieldPage, firstFieldPage)
  put('network', state.networkPage, firstNetworkPage)
  put('review', state.reviewPage, firstReviewPage)
  put('reviewed', state.reviewed?.series ?? '')
  put('odd', state.reviewed?.oddity ?? '')
  const readingEpochMs = state.reviewed?.readingEpochMs ?? null
  put('reading', readingEpochMs === null ? '' : new Date(readingEpochMs).toISOString())
  put('days', state.reviewDays === null ? '' : String(state.reviewDays))
  for (const id of state.compared) query.append('compare', id)
  put('paired', writePairing(state.pairedHow), writePairing(firstPairing))
  put('patch', writePatch(state.patch), writePatch(firstPatch))
  put('audited', state.audit.kind ?? '')
  put('by', state.audit.name ?? '')
  put('alerts', state.alertsPage, firstAlertsPage)
  put('alert', state.openedAlert === null ? '' : String(state.openedAlert))
  put('held', state.openedMeeting === null ? '' : String(state.openedMeeting))
  put('line', state.sectionLine.map((one) => `${one.eastingMetres},${one.northingMetres}`).join(' '))
  put('dates', state.profileDates.map((one) => new Date(one).toISOString()).join(' '))
  put('axis', state.profileAxis, profileAxes[0])
  put('stress', state.stressShown ? '' : 'none')
  put('whatif', state.whatIf)
  return query.toString()
}

/** Reads an address; parts that cannot be read are as at first opening, the rest stands. */
export function readAddress(query: string): AddressState {
  const given = new URLSearchParams(query)
  const words = (name: string) => (given.get(name) ?? '').split(' ').filter((word) => word !== '')
  const hidden = given.has('without')
    ? words('without').filter(isOneOf<InstrumentKind>(instrumentKinds))
    : noFilters.hiddenKinds
  return {
    site: given.get('site'),
    frozen: /^[0-9a-f]{16}$/.test(given.get('frozen') ?? '') ? given.get('frozen') : null,
    clock: readInstant(given.get('at')) ?? 'present',
    counting: countings.find((one) => one === given.get('counted')) ?? countings[0],
    selection: readSelection(given.get('selected') ?? ''),
    filters: {
      hiddenKinds: hidden,
      standings: words('standing').filter(isStanding),
      text: given.get('find') ?? '',
      openAlerts: given.get('with') === 'open-alerts',
    },
    layers: given.has('layers') ? words('layers').filter(isOneOf<PlanLayer>(planLayers)) : firstLayers,
    changeFromEpochMs: readInstant(given.get('since')),
    surfaceMethod: surfaceMethods.find((one) => one === given.get('between')) ?? surfaceMethods[0],
    surfaceAspect: surfaceAspects.find((one) => one === given.get('surface')) ?? surfaceAspects[0],
    surfaceStratum: given.get('stratum') || null,
    view: readView(given.get('view') ?? ''),
    tab: sheetTabs.find((tab) => tab === given.get('sheet')) ?? emptyAddress.tab,
    analysis: groundAnalyses.find((one) => one === given.get('ground')) ?? firstAnalysis,
    fieldPage: fieldPages.find((one) => one === given.get('field')) ?? firstFieldPage,
    networkPage: networkPages.find((one) => one === given.get('network')) ?? firstNetworkPage,
    reviewPage: reviewPages.find((one) => one === given.get('review')) ?? firstReviewPage,
    reviewed: readReviewQuestion(given.get('reviewed'), given.get('odd'), readInstant(given.get('reading'))),
    reviewDays: reviewStretches.find((one) => String(one) === given.get('days')) ?? null,
    compared: [...new Set(given.getAll('compare').filter((id) => id !== ''))].slice(0, mostCompared),
    pairedHow: readPairing(given.get('paired')),
    patch: readPatch(given.get('patch')),
    audit: { kind: given.get('audited') || null, name: given.get('by') || null },
    alertsPage: alertsPages.find((one) => one === given.get('alerts')) ?? firstAlertsPage,
    openedAlert: readCount(given.get('alert')),
    openedMeeting: readCount(given.get('held')),
    sectionLine: readLine(words('line')),
    profileDates: words('dates').flatMap((word) => readInstant(word) ?? []),
    profileAxis: profileAxes.find((one) => one === given.get('axis')) ?? profileAxes[0],
    stressShown: given.get('stress') !== 'none',
    whatIf: given.get('whatif') ?? '',
  }
}
