import { type SurfaceAspect, surfaceAspects } from '#domain/ground/surface-aspects.ts'
import { type SurfaceMethod, surfaceMethods } from '#domain/ground/surface-methods.ts'
import type { ProfileAxis } from '../views/depth-profile/profile-from-site.ts'
import { type AlertsPage, firstAlertsPage } from './alerts-page.ts'
import { type AuditFilter, wholeAudit } from './audit-filter.ts'
import { type Counting, countings } from './counted.ts'
import { type FieldPage, firstFieldPage } from './field-page.ts'
import { type Filters, noFilters } from './filters.ts'
import { firstAnalysis, type GroundAnalysis } from './ground-analysis.ts'
import type { MapView } from './map-view.ts'
import { firstNetworkPage, type NetworkPage } from './network-page.ts'
import { firstPairing, type PairedHow } from './paired-how.ts'
import { firstPatch, type Patch } from './patch.ts'
import { firstLayers, type PlanLayer } from './plan-layers.ts'
import { profileAxes } from './profile-look.ts'
import { firstReviewPage, type ReviewPage } from './review-page.ts'
import type { ReviewQuestion } from './review-question.ts'
import type { GridPoint } from './section-line.ts'
import type { Selection } from './selection.ts'
import type { SheetTab } from './sheet.ts'

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

/** As at first opening. */
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
