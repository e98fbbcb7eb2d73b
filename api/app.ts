import { Hono } from 'hono'
import { compress } from 'hono/compress'
import { type Access, createAccess } from './access/create-access.ts'
import type { Alerts } from './alerts/alerts.ts'
import { createAlerts } from './alerts/create-alerts.ts'
import type { Delivery } from './alerts/delivery/create-delivery.ts'
import { ephemeralDelivery } from './alerts/delivery/ephemeral-delivery.ts'
import { noEvaluation } from './alerts/levels-standing.ts'
import { createFieldWork, type FieldWork } from './field/create-field-work.ts'
import type { Freezing } from './freeze/freezing.ts'
import type { Intake } from './intake/create-intake.ts'
import type { ValuesOf } from './levels/try-levels.ts'
import { createVerdictWatch, publishedRevision, type VerdictWatch } from './review/verdict-watch.ts'
import { alertMessageRoutes } from './routes/alert-messages.ts'
import { alertRoutes } from './routes/alerts.ts'
import { approvalRoutes } from './routes/approvals.ts'
import { attachmentRoutes } from './routes/attachments.ts'
import { auditRoutes } from './routes/audit.ts'
import { calibrationRoutes } from './routes/calibrations.ts'
import { contradictedVerdictRoutes } from './routes/contradicted-verdicts.ts'
import { correctionProposalRoutes } from './routes/correction-proposals.ts'
import { dutiesRoutes } from './routes/duties.ts'
import { fieldEntryRoutes } from './routes/field-entries.ts'
import { fieldGuideRoutes } from './routes/field-guide.ts'
import { fileRoutes } from './routes/files.ts'
import { frozenSetRoutes } from './routes/frozen-sets.ts'
import { guardRequests } from './routes/guard-requests.ts'
import { hostGuard } from './routes/host-guard.ts'
import { ingestTokenRoutes } from './routes/ingest-tokens.ts'
import { levelProposalRoutes } from './routes/level-proposals.ts'
import { limitRequests } from './routes/limit-requests.ts'
import { meetingRoutes } from './routes/meetings.ts'
import { minuteRoutes } from './routes/minutes.ts'
import { networkRoutes } from './routes/network.ts'
import { ownDeviceRoutes } from './routes/own-devices.ts'
import { ownKeyRoutes } from './routes/own-keys.ts'
import { passwordLinkRoutes } from './routes/password-links.ts'
import { peopleRoutes } from './routes/people.ts'
import { onFailure, onNotFound } from './routes/problem.ts'
import { rawReadingRoutes } from './routes/raw-readings.ts'
import { reportRoutes } from './routes/reports.ts'
import { securityHeaders } from './routes/security-headers.ts'
import { sessionRoutes } from './routes/sessions.ts'
import { shareLinkRoutes } from './routes/share-links.ts'
import { siteEventRoutes } from './routes/site-events.ts'
import { siteRoutes } from './routes/sites.ts'
import { sliceFiles } from './routes/slice-files.ts'
import { suppressionRoutes } from './routes/suppressions.ts'
import { createTestLimit } from './routes/test-limit.ts'
import { traverseCorrectionRoutes } from './routes/traverse-corrections.ts'
import { verdictRoutes } from './routes/verdicts.ts'
import { webhookRoutes } from './routes/webhooks.ts'
import type { Publisher } from './slices/publisher.ts'
import type { Store } from './store/store.ts'

/** Everything the server needs, handed in: nothing below reads the environment or the clock by itself. */
export interface Dependencies {
  readonly store: Store
  readonly intake: Intake
  readonly publisher: Publisher
  /** What is written along the works; one of its own where none is given. */
  readonly field?: FieldWork
  /** Alerts and responses; where none are given, those recorded, without evaluation and without anybody told. */
  readonly alerts?: Alerts
  /** Accounts and sessions; of the store where none is given. */
  readonly access?: Access
  /** Verdicts held against what is published; none are where it is not given. */
  readonly watch?: VerdictWatch
  /** Data sets that stand still; none are made where it is not given. */
  readonly freezing?: Freezing
  /** How alerts leave the server; one that sends no mail and forgets its keys where none is given. */
  readonly delivery?: Delivery
  /** Past values by which levels are tried; of the store where it is not given. */
  readonly valuesOf?: ValuesOf
  readonly now: () => number
  /** Names by which this server may be addressed, without port. */
  readonly allowedHosts: readonly string[]
  /** SHA-256 (hex) of the token with which other programs may add files; null where none may. */
  readonly ingestTokenSha256: string | null
  /** True while only this machine reaches the server: without any account, pages it served may then read and change. */
  readonly loopbackOnly: boolean
  /** True: while only this machine reaches the server, pages it served may read but not change without an account. */
  readonly visitorsOnly?: boolean
  /** 32 bytes that seal what must not lie readable in the data file; without it there are no second factors. */
  readonly sealKey?: Uint8Array
  /** A proxy that speaks TLS stands in front, and what it says of a connection is believed. */
  readonly behindTls?: boolean
  /** By which people and programs elsewhere open the page, without a slash at its end; null: not known. */
  readonly address?: string | null
  /** Version of this program, told where what another one made is made again. */
  readonly software?: string
  readonly report: (line: string) => void
}

/** The one constructor of the HTTP side; everything can be asked of it without a port by `app.request()`. */
export function createApp(dependencies: Dependencies): Hono {
  const field = dependencies.field ?? createFieldWork(dependencies)
  const access = dependencies.access ?? createAccess(dependencies)
  const alerts = dependencies.alerts ?? quietAlerts(dependencies)
  const delivery = dependencies.delivery ?? ephemeralDelivery(dependencies)
  const testLimit = createTestLimit(dependencies.now)
  const app = new Hono()
  app.use(hostGuard(dependencies.allowedHosts))
  app.use(securityHeaders())
  app.use(limitRequests(dependencies))
  app.use('/api/*', compress())
  app.use(guardRequests({ ...dependencies, access }))
  app.route('/', sessionRoutes({ ...dependencies, access }))
  app.route('/', ownKeyRoutes({ ...dependencies, access }))
  app.route('/', passwordLinkRoutes({ ...dependencies, access }))
  app.route('/', peopleRoutes({ ...dependencies, access }))
  app.route('/', ingestTokenRoutes({ ...dependencies, access }))
  app.route('/', shareLinkRoutes({ ...dependencies, access }))
  app.route('/', webhookRoutes({ ...dependencies, delivery, testLimit }))
  app.route('/', ownDeviceRoutes({ ...dependencies, delivery, testLimit }))
  app.route('/', siteRoutes(dependencies))
  app.route('/', rawReadingRoutes(dependencies))
  app.route('/', fileRoutes(dependencies))
  app.route('/', fieldGuideRoutes(dependencies))
  app.route('/', calibrationRoutes(dependencies))
  app.route('/', correctionProposalRoutes(dependencies))
  app.route('/', traverseCorrectionRoutes(dependencies))
  app.route('/', verdictRoutes(dependencies))
  app.route('/', contradictedVerdictRoutes({ watch: dependencies.watch ?? quietWatch(dependencies) }))
  app.route('/', approvalRoutes(dependencies))
  app.route('/', levelProposalRoutes(dependencies))
  app.route(
    '/',
    reportRoutes({ ...dependencies, frozenSetOf: frozenSetsOf(dependencies), ...damagesOf(dependencies) }),
  )
  app.route('/', fieldEntryRoutes({ ...dependencies, field }))
  app.route('/', attachmentRoutes({ ...dependencies, field }))
  app.route('/', networkRoutes(dependencies))
  app.route('/', alertMessageRoutes({ ...dependencies, alerts }))
  app.route('/', alertRoutes({ alerts }))
  app.route('/', siteEventRoutes({ ...dependencies, alerts, access }))
  app.route('/', dutiesRoutes(dependencies))
  app.route('/', suppressionRoutes(dependencies))
  app.route('/', meetingRoutes({ ...dependencies, freezing: dependencies.freezing ?? null }))
  app.route('/', minuteRoutes(dependencies))
  app.route('/', auditRoutes(dependencies))
  app.route('/', sliceFiles(dependencies))
  app.route('/', frozenSetRoutes({ ...dependencies, freezing: dependencies.freezing ?? null }))
  app.notFound(onNotFound)
  app.onError(onFailure(dependencies.report))
  return app
}

const frozenSetsOf =
  ({ freezing }: Dependencies) =>
  async (site: string, id: string) =>
    (await freezing?.find(site, id)) ?? null

/** Where nothing is frozen, nothing is known of sets. */
const damagesOf = ({ freezing }: Dependencies) =>
  freezing ? { damageOf: (site: string, id: string) => freezing.damageOf(site, id) } : {}

const quietWatch = ({ publisher, report }: Dependencies): VerdictWatch =>
  createVerdictWatch({ look: async () => null, revisionOf: publishedRevision(publisher), report })

const quietAlerts = ({ store, now, report }: Dependencies): Alerts =>
  createAlerts({
    store,
    evaluation: () => noEvaluation,
    ways: [],
    waysSetUp: [],
    now,
    random: () => 0.5,
    report,
  })
