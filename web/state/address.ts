import { type SurfaceAspect, surfaceAspects } from '#domain/ground/surface-aspects.ts'
import { type SurfaceMethod, surfaceMethods } from '#domain/ground/surface-methods.ts'
import { type InstrumentKind, instrumentKinds, type Measure, measures } from '#domain/site/vocabulary.ts'
import type { Standing } from '../ui/state-scale.ts'
import type { ProfileAxis } from '../views/depth-profile/profile-from-site.ts'
import { type AlertsPage, alertsPages, firstAlertsPage } from './alerts-page.ts'
import { type AuditFilter, wholeAudit } from './audit-filter.ts'
import { mostCompared } from './compared.ts'
import { type Counting, countings } from './counted.ts'
import { type FieldPage, fieldPages, firstFieldPage } from './field-page.ts'
import { type Filters, noFilters } from './filters.ts'
import { firstAnalysis, type GroundAnalysis, groundAnalyses } from './ground-analysis.ts'
import type { MapView } from './map-view.ts'
import { firstNetworkPage, type NetworkPage, networkPages } from './network-page.ts'
import { firstPairing, type PairedHow, readPairing, writePairing } from './paired-how.ts'
import { firstPatch, type Patch, readPatch, writePatch } from './patch.ts'
import { firstLayers, type PlanLayer, planLayers } from './plan-layers.ts'
import { profileAxes } from './profile-look.ts'
import { firstReviewPage, type ReviewPage, reviewPages } from './review-page.ts'
import { type ReviewQuestion, readReviewQuestion } from './review-question.ts'
import { reviewStretches } from './reviewed-series.ts'
import type { GridPoint } from './section-line.ts'
import type { Selection } from './selection.ts'
import { type SheetTab, sheetTabs } from './sheet.ts'

/** Everything that a link must carry so that its reader sees what its sender saw. */
export interface AddressState {
  readonly site: string | null
  /** Frozen data set that all of it is read from; null: what the server holds now. */
  readonly frozen: string | null
  readonly clock: 'present' | number
  /** Whether values count at a past clock from when they were taken, or once they had been received. */
  readonly counting: Counting
  readonly selection: Selection
  readonly filters: Filters
  readonly layers: readonly PlanLayer[]
  /** Instant the change layer counts from; null: not chosen. */
  readonly changeFromEpochMs: number | null
  readonly surfaceMethod: SurfaceMethod
  /** What of the surface is drawn. */
  readonly surfaceAspect: SurfaceAspect
  /** Stratum of the piezometric surface; null: not chosen. */
  readonly surfaceStratum: string | null
  readonly view: MapView | null
  readonly tab: SheetTab
  readonly analysis: GroundAnalysis
  readonly fieldPage: FieldPage
  readonly networkPage: NetworkPage
  readonly reviewPage: ReviewPage
  /** Which of the selected series is reviewed, and what is asked of it; null: the first of them. */
  readonly reviewed: ReviewQuestion | null
  /** Days before the clock that a review looks at; null: as suits the series. */
  readonly reviewDays: number | null
  /** Series that are compared, point/measure. */
  readonly compared: readonly string[]
  /** How two of them are drawn against each other. */
  readonly pairedHow: PairedHow
  /** A patch of plan: metres around what is selected, or corners of an area. */
  readonly patch: Patch
  readonly audit: AuditFilter
  readonly alertsPage: AlertsPage
  /** Alert whose record is open. */
  readonly openedAlert: number | null
  /** Meeting whose page is open at the desk. */
  readonly openedMeeting: number | null
  readonly sectionLine: readonly GridPoint[]
  readonly profileDates: readonly number[]
  /** Along which axis the profile of a casing is looked at. */
  readonly profileAxis: ProfileAxis
  /** Whether the profile of piezometers has effective stress beside pressures. */
  readonly stressShown: boolean
  /** What is tried in the sandbox, as `state/what-if.ts` has it. */
  readonly whatIf: string
}

export const emptyAddress: AddressState = {
  site: null,
  frozen: null,
  clock: 'present',
  counting: countings[0],
  selection: { kind: 'nothing' },
  filters: noFilters,
  layers: firstLayers,
  changeFromEpochMs: null,
  surfaceMethod: surfaceMethods[0],
  surfaceAspect: surfaceAspects[0],
  surfaceStratum: null,
  view: null,
  tab: 'history',
  analysis: firstAnalysis,
  fieldPage: firstFieldPage,
  networkPage: firstNetworkPage,
  reviewPage: firstReviewPage,
  reviewed: null,
  reviewDays: null,
  compared: [],
  pairedHow: firstPairing,
  patch: firstPatch,
  audit: wholeAudit,
  alertsPage: firstAlertsPage,
  openedAlert: null,
  openedMeeting: null,
  sectionLine: [],
  profileDates: [],
  profileAxis: profileAxes[0],
  stressShown: true,
  whatIf: '',
}

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

/** True where going from one to the other is a step that the browser's Back should undo. */
export function isStep(from: AddressState, to: AddressState): boolean {
  const place = (state: AddressState) =>
    JSON.stringify([
      state.site,
      state.selection,
      state.tab,
      state.analysis,
      state.fieldPage,
      state.networkPage,
      state.reviewPage,
      state.alertsPage,
      state.openedAlert,
      state.openedMeeting,
      state.sectionLine,
      state.layers,
    ])
  return place(from) !== place(to)
}

function writeSelection(selection: Selection): string {
  if (selection.kind === 'nothing') return ''
  if (selection.kind === 'instrument') return `instrument:${selection.instrument}`
  return `point:${selection.point}${selection.measure ? `/${selection.measure}` : ''}`
}

function readSelection(text: string): Selection {
  const [kind, ...rest] = text.split(':')
  const name = rest.join(':')
  if (name === '') return { kind: 'nothing' }
  if (kind === 'instrument') return { kind: 'instrument', instrument: name }
  if (kind !== 'point') return { kind: 'nothing' }
  const measure = measures.find((one): one is Measure => name.endsWith(`/${one}`)) ?? null
  const point = measure ? name.slice(0, -measure.length - 1) : name
  return { kind: 'point', point, measure }
}

function writeView(view: MapView): string {
  const numbers = [
    view.longitude.toFixed(6),
    view.latitude.toFixed(6),
    view.zoom.toFixed(2),
    view.bearingDegrees.toFixed(1),
  ]
  return numbers.join(',')
}

function readView(text: string): MapView | null {
  const [longitude, latitude, zoom, bearingDegrees] = text.split(',').map(Number)
  if (longitude === undefined || latitude === undefined || zoom === undefined) return null
  if (bearingDegrees === undefined) return null
  if (!(Math.abs(longitude) <= 180 && Math.abs(latitude) <= 90 && zoom >= 0 && zoom <= 24)) return null
  return Number.isFinite(bearingDegrees) ? { longitude, latitude, zoom, bearingDegrees } : null
}

function readLine(words: readonly string[]): readonly GridPoint[] {
  const corners = words.flatMap((word) => {
    const [eastingMetres, northingMetres] = word.split(',').map(Number)
    if (eastingMetres === undefined || northingMetres === undefined) return []
    return Number.isFinite(eastingMetres + northingMetres) ? { eastingMetres, northingMetres } : []
  })
  return corners.length >= 2 ? corners : []
}

function readCount(text: string | null): number | null {
  return text !== null && /^[1-9]\d{0,8}$/.test(text) ? Number(text) : null
}

function readInstant(text: string | null): number | null {
  const atEpochMs = Date.parse(text ?? '')
  return Number.isFinite(atEpochMs) ? atEpochMs : null
}

const isStanding = (word: string): word is Standing =>
  word === 'late' ||
  word === 'out-of-use' ||
  word === 'no-level' ||
  word === 'within' ||
  /^level-[1-6]$/.test(word)

const isOneOf =
  <T extends string>(list: readonly T[]) =>
  (word: string): word is T =>
    list.some((one) => one === word)
