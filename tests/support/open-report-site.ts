import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Location } from '#domain/site/tables.ts'
import { noEvaluation } from '../../api/alerts/levels-standing.ts'
import { createFreezing } from '../../api/freeze/create-freezing.ts'
import type { FrozenDocument } from '../../api/freeze/frozen-parts.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import type { Engine } from '../../web/engine/engine.ts'
import { openEngine } from '../../web/engine/open-engine.ts'
import { writeHtml } from '../../web/report/html/write-html.ts'
import { type MadeReport, makeReport } from '../../web/report/make-report.ts'
import { openSources } from '../../web/report/open-sources.ts'
import { writePdf } from '../../web/report/pdf/write-pdf.ts'
import type { ReportSources } from '../../web/report/report-sources.ts'
import { startNativeSession } from '../contract/engine-sessions.ts'
import { reportFonts } from './report-fonts.ts'
import { type GivenReading, takeReadings } from './take-readings.ts'
import { quarter, recalibrated, type watchedChannels, watchedSite } from './watched-site.ts'

export const site = 'test-quay'
/** Midnight of 1 June 2027 at the site, which keeps UTC in summer. */
export const june = (day: number, hour = 0, minute = 0): number => Date.UTC(2027, 5, day, hour, minute)

const place = (id: string, eastingMetres: number): Location => ({
  id,
  kind: 'surface',
  eastingMetres,
  northingMetres: 310_000,
  collarLevelMetres: 4.6,
  azimuthDegrees: 0,
  dipDegrees: 90,
  lengthMetres: 0,
  surveyedAt: 0,
  surveyedBy: 'Surveyor',
})

/** The watched site with places, a settlement that passes its first level, and a point that goes out of use. */
export const reportSite = (): SiteModel =>
  watchedSite({ locations: ['BA-1', 'PZ-1', 'ST-1', 'SP-1'].map((id, at) => place(id, 500_000 + 10 * at)) })

/** Every quarter of an hour from the first to, exclusive, the last. */
export const quarters = (fromEpochMs: number, untilEpochMs: number): readonly number[] =>
  Array.from({ length: (untilEpochMs - fromEpochMs) / quarter }, (_, at) => fromEpochMs + at * quarter)

/** The truth of the made readings, in raw units: a barometer, a pressure, two gauges and a settlement. */
export const truth: Readonly<
  Record<(typeof watchedChannels)[keyof typeof watchedChannels], (at: number) => number>
> = {
  'BA-1/barometric-pressure': (at) => 100 + Math.round(100 * Math.sin(at / 8e7)) / 100,
  'PZ-1/pore-pressure': () => 4,
  'ST-1-1/force': () => 2,
  'ST-1-2/force': () => 3,
  'SP-1/settlement': (at) => Math.round(1000 * ((at - june(1)) / 8.64e8) * 6) / 1000,
}

export interface ReportSite {
  readonly store: Store
  take(readings: readonly GivenReading[], receivedAtEpochMs: number): Promise<void>
  /** Another calibration of the settlement from an instant on, entered now. */
  recalibrate(factor: number, validFrom: number): Promise<void>
  /** Freezes what was received by an instant, which becomes the present. */
  freeze(cutOffEpochMs: number): Promise<FrozenSet>
  sources(manifest: ReportManifest): Promise<ReportSources>
  make(manifest: ReportManifest): Promise<MadeReport>
  close(): Promise<void>
}

/** A made site of five channels whose data are frozen and reported on with the page's engine and questions. */
export async function openReportSite(model = reportSite()): Promise<ReportSite> {
  const folder = await mkdtemp(join(tmpdir(), 'report-site-'))
  const store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  await store.putSite(model, { author: 'tester', reason: 'test', atEpochMs: 0 })
  let present = june(30)
  const freezing = createFreezing({
    store,
    alerts: {
      evaluated: async () => ({ standing: await noEvaluation.standing(site), ways: [] }),
    },
    folder: join(folder, 'frozen'),
    slicesFolder: join(folder, 'slices'),
    software: '0.1.0',
    now: () => present,
  })
  const engines: Engine[] = []
  const setOf = async (id: string) => {
    const set = await freezing.find(site, id)
    if (!set) throw new Error(`no frozen set ${id}`)
    return set
  }
  const get = async <T>(path: string): Promise<T> => {
    const [, , , of, , id = '', part] = path.split('/')
    if (of !== site) throw new Error(`another site is asked for: ${path}`)
    const set = await setOf(id)
    if (!part) return set as T
    const document = JSON.parse(Buffer.from(await freezing.document(set, part as FrozenDocument)).toString())
    if (part !== 'slices') return document
    const { slices } = document as { slices: readonly { url: string }[] }
    const located = slices.map(async (slice) => ({
      ...slice,
      url: `file://${await freezing.sliceFile(site, slice.url.split('/').at(-1) ?? '')}`,
    }))
    return { ...document, slices: await Promise.all(located) }
  }
  const sources = (manifest: ReportManifest) => {
    // As in the page: whoever makes a report has an engine of its own.
    const engine = openEngine({ startSession: startNativeSession })
    engines.push(engine)
    return openSources(manifest, { get, optional: get }, engine, {
      fetchBytes: async ({ url }) => new Uint8Array(await readFile(new URL(url))),
    })
  }
  return {
    store,
    sources,
    take: (readings, receivedAtEpochMs) => takeReadings(store, site, readings, receivedAtEpochMs),
    async recalibrate(factor, validFrom) {
      await store.changeSite(site, (now) => recalibrated(now, factor, validFrom), {
        author: 'Ben Holm',
        reason: 'checked at the bench',
        atEpochMs: present,
      })
    },
    async freeze(cutOffEpochMs) {
      present = cutOffEpochMs
      const frozen = await freezing.freeze(site, cutOffEpochMs, { account: null, name: 'Ada Marsh' })
      if (!frozen.ok) throw new Error(frozen.issues.map(({ message }) => message).join(' '))
      return frozen.value.set
    },
    make: async (manifest) =>
      makeReport(await sources(manifest), async (document) => ({
        html: new TextEncoder().encode(writeHtml(document)),
        pdf: writePdf(document, reportFonts()),
      })),
    async close() {
      for (const engine of engines) await engine.close()
      await freezing.close()
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

/** A report of a week of June over frozen data, as a page would begin it. */
export const weekManifest = (
  frozen: FrozenSet,
  before: { readonly set: FrozenSet; readonly untilEpochMs: number } | null,
  period: { readonly fromEpochMs: number; readonly untilEpochMs: number },
): ReportManifest => ({
  form: 1,
  site,
  kind: 'weekly',
  number: before ? 2 : 1,
  ...period,
  paper: 'A4',
  parts: ['exceedances', 'plan', 'sections', 'profiles', 'histories', 'calibrations', 'minutes'],
  views: [],
  statement: {
    text: 'The settlement goes on as expected.\n\n- Nothing else moved.',
    author: 'Ada Marsh',
    atEpochMs: frozen.cutOffEpochMs + 3_600_000,
  },
  frozenSet: frozen.id,
  cutOffEpochMs: frozen.cutOffEpochMs,
  previousFrozenSet: before?.set.id ?? null,
  previousNumber: before ? 1 : null,
  previousUntilEpochMs: before?.untilEpochMs ?? null,
  software: frozen.software,
})
