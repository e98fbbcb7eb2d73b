import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import { issueLine } from '#domain/outcome.ts'
import { createAccess } from './access/create-access.ts'
import { sayHowToSignIn } from './access/say-how-to-sign-in.ts'
import { readOrMakeSealKey } from './access/seal-key.ts'
import { createAlerts } from './alerts/create-alerts.ts'
import { openDelivery } from './alerts/delivery/open-delivery.ts'
import { createEvaluator } from './alerts/evaluator.ts'
import { createApp } from './app.ts'
import { buildWeb } from './build-web.ts'
import { createFieldWork } from './field/create-field-work.ts'
import { clearLeftovers } from './freeze/clear-leftovers.ts'
import { createFreezing } from './freeze/create-freezing.ts'
import { readOrMakeIngestToken } from './ingest-token.ts'
import { createIntake } from './intake/create-intake.ts'
import { watchInbox } from './intake/inbox.ts'
import { clearOutdatedSample, sampleVersion } from './outdated-sample.ts'
import { prepareSample } from './prepare-sample.ts'
import { createReport } from './report.ts'
import { lookAgain } from './review/look-again.ts'
import { createVerdictWatch, publishedRevision } from './review/verdict-watch.ts'
import { serve } from './serve.ts'
import { onlyHere, projectFolder, readSettings, type Settings } from './settings.ts'
import { loadSiteFolder, readSiteFolder } from './site-folder.ts'
import { createPublisher } from './slices/duckdb-publisher.ts'
import type { Publisher } from './slices/publisher.ts'
import { softwareVersion } from './software-version.ts'
import { openDuckdbStore } from './store/duckdb-store.ts'
import type { Store } from './store/store.ts'

const say = (line: string): void => console.log(line)

/** The process: reads its settings, prepares what is missing, serves, and stops cleanly when told to. */
export async function start(commandLine: readonly string[]): Promise<void> {
  const settings = readSettings(process.env, commandLine)
  if (!settings.ok) {
    for (const issue of settings.issues) console.error(issue.message)
    process.exitCode = 1
    return
  }
  try {
    const stop = await run(settings.value)
    for (const signal of ['SIGINT', 'SIGTERM'] as const)
      process.once(signal, () => void stop().then(() => process.exit(0)))
  } catch (failure) {
    console.error(sentences(failure))
    process.exit(1)
  }
}

async function run(settings: Settings): Promise<() => Promise<void>> {
  const now = () => Date.now()
  const { dataFolder } = settings
  await mkdir(dataFolder, { recursive: true })
  if (!settings.development) await buildWeb(say)

  const storeFile = join(dataFolder, 'stillground.duckdb')
  const sampleFolder = join(projectFolder, 'sample-site')
  const version = await sampleVersion(sampleFolder)
  const withSample = settings.withSample && (await clearOutdatedSample(dataFolder, storeFile, version, say))
  const store = await openDuckdbStore({ file: storeFile })
  const present = async (site: string) => (await store.getSite(site))?.facts.presentEpochMs ?? now()
  const intake = createIntake({ store, filesFolder: join(dataFolder, 'files'), presentEpochMs: present })
  const report = createReport(now, (line) => console.error(line))
  const delivery = await openDelivery({ store, settings, now })
  const alerts = createAlerts({
    store,
    evaluation: (onRecorded) =>
      createEvaluator({
        store,
        folder: join(dataFolder, 'levels'),
        now,
        onEvents: onRecorded,
        onFailure: (site, failure) => report(`${site}: levels were not evaluated: ${sentences(failure)}`),
      }),
    ways: delivery.ways,
    waysSetUp: [
      ...(delivery.mail ? (['mail'] as const) : []),
      'webhook',
      ...(delivery.pushHindrance === null ? (['push'] as const) : []),
    ],
    now,
    random: Math.random,
    report,
  })
  const slices = createPublisher({
    store,
    folder: join(dataFolder, 'slices'),
    now,
    onFailure: (failure) => console.error(`Publishing failed: ${sentences(failure)}`),
    onPublished(site, revision) {
      alerts.published(site, revision)
      watch.published(site)
    },
  })
  const watch = createVerdictWatch({
    look: (site, last) => lookAgain({ store, publisher: slices }, site, now(), last),
    revisionOf: publishedRevision(slices),
    report,
  })
  // Whoever says that something changed has it published and held against the levels.
  const publisher: Publisher = {
    ...slices,
    changed(site) {
      slices.changed(site)
      void alerts.arrived(site)
    },
  }

  if (withSample)
    await prepareSample({
      store,
      intake,
      dataFolder,
      folder: sampleFolder,
      version,
      now,
      say,
      evaluate: alerts.arrived,
    })
  for (const folder of settings.siteFolders) await loadOwnSite(store, folder, now())
  for (const { id, name } of await store.listSites()) {
    const { months } = await publisher.publish(id, (month, at, of) =>
      say(`${name}: publishing ${month} (${at} of ${of}) …`),
    )
    if (months > 0) say(`${name}: ${months} months published.`)
  }

  for (const { id } of await store.listSites()) {
    void alerts.arrived(id)
    watch.published(id)
  }
  const field = createFieldWork({ store, intake, publisher, now, report })
  for (const { id } of await store.listSites()) await field.work(id)

  const stopping = new AbortController()
  for (const { id } of await store.listSites()) {
    const folder = join(dataFolder, 'inbox', id)
    await mkdir(folder, { recursive: true })
    void watchInbox({
      folder,
      site: id,
      intake,
      receivedAtEpochMs: () => present(id),
      onReceipt: (receipt) => {
        say(`${id}: ${receipt.fileName}: ${receipt.outcome}, ${receipt.accepted} readings.`)
        publisher.changed(id)
      },
      signal: stopping.signal,
    })
  }

  const token = await readOrMakeIngestToken(dataFolder)
  const access = createAccess({ store, now, sealKey: await readOrMakeSealKey(dataFolder), report })
  const loopbackOnly = onlyHere(settings)
  const software = await softwareVersion()
  await clearLeftovers(store, join(dataFolder, 'frozen'), report)
  const freezing = createFreezing({
    store,
    alerts,
    folder: join(dataFolder, 'frozen'),
    slicesFolder: join(dataFolder, 'slices'),
    software,
    now,
  })
  const app = createApp({
    store,
    intake,
    publisher,
    freezing,
    field,
    alerts,
    watch,
    access,
    delivery,
    now,
    allowedHosts: ['127.0.0.1', '[::1]', 'localhost', settings.host.toLowerCase(), ...settings.names],
    ingestTokenSha256: token.sha256,
    loopbackOnly,
    visitorsOnly: !settings.openForChanges,
    behindTls: settings.behindTls,
    address: settings.address,
    software,
    report,
  })
  const listening = await serve(app, settings)
  say('')
  say(`Stillground is at ${listening.address}`)
  say(
    `Files dropped into ${join(dataFolder, 'inbox')}/<site> are taken in; the ingest token for HTTP is in ${token.path}`,
  )
  const ticking = setInterval(() => void alerts.tick(), 15_000)
  await sayHowToSignIn({ access, settings, address: listening.address, say })

  return async () => {
    stopping.abort()
    await listening.close()
    clearInterval(ticking)
    await field.settled()
    await alerts.close()
    await watch.close()
    await freezing.close()
    await publisher.close()
    await store.close()
  }
}

async function loadOwnSite(store: Store, folder: string, atEpochMs: number): Promise<void> {
  const read = await readSiteFolder(folder)
  if (!read.ok)
    throw new Error(
      `The site folder ${folder} was not loaded; nothing of it was changed.\n${read.issues.map((issue) => `  ${issueLine(issue)}`).join('\n')}`,
    )
  const { changed } = await loadSiteFolder(store, read.value, `loaded from ${folder}`, atEpochMs)
  say(`${read.value.model.facts.name}: ${changed} records new or changed.`)
}

/** A failure and its causes, each a line; the stack only where we are to blame. */
function sentences(failure: unknown): string {
  if (!(failure instanceof Error)) return String(failure)
  const own = failure.message.startsWith('assertion failed')
    ? (failure.stack ?? failure.message)
    : failure.message
  return failure.cause ? `${own}\n  because: ${sentences(failure.cause)}` : own
}
