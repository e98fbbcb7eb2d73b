import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { reviewCaseOf } from '#domain/review/case/case-of.ts'
import { companionsOf } from '#domain/review/case/companions.ts'
import { loggersBeside } from '#domain/review/case/loggers-beside.ts'
import { casesOfPatch, patchQuestion } from '#domain/review/case/patch-cases.ts'
import { placesOf } from '#domain/review/case/places-of.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { siteWater } from '#domain/site/site-water.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import type { LevelsStanding } from '../../api/alerts/levels-standing.ts'
import { createFreezing } from '../../api/freeze/create-freezing.ts'
import { networkDocument } from '../../api/network/network-document.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import type { Store } from '../../api/store/store.ts'
import { seriesInPatch } from '../../web/derived/review/series-in-patch.ts'
import type { Columns } from '../../web/engine/columns.ts'
import { openEngine } from '../../web/engine/open-engine.ts'
import type { Query } from '../../web/engine/query.ts'
import { knownHours, knownReadings, knownReadingsOf } from '../../web/queries/review-readings.ts'
import { createSliceKeeper } from '../../web/slices/slice-keeper.ts'
import { startNativeSession } from '../contract/engine-sessions.ts'
import { openSampleStore } from './open-sample-store.ts'
import { bringPublished } from './published-sample.ts'

const code = 'skarrow-quay'
const dayMs = 86_400_000

export interface ReviewSample {
  /** Names of all of them. */
  readonly series: readonly string[]
  /** A series at an instant over so many days before it, put together as the page does from published slices. */
  readonly caseAt: (series: string, day: string, days: number) => Promise<ReviewCase>
  /** The same of all series of a quantity around a point, as the page's patch puts them together; each when it is asked for. */
  readonly patchAt: (
    point: string,
    radiusMetres: number,
    measure: Measure,
    day: string,
    days: number,
  ) => Promise<{ readonly fetchedMs: number; readonly cases: Generator<ReviewCase> }>
  /** An answer of the page's engine to one of its questions. */
  readonly ask: (query: Query) => Promise<Columns>
  /** Number of a series in slices. */
  readonly numberOf: (series: string) => number
  readonly site: SiteDocument
  readonly store: Store
  readonly publisher: Publisher
  /** States of all series in a data set frozen by a cut-off. */
  readonly frozenStates: (cutOffEpochMs: number) => Promise<StateDocument>
  readonly close: () => Promise<void>
}

/** The whole sample, published, with the page's engine and questions. */
export async function openReviewSample(): Promise<ReviewSample> {
  const sample = await openSampleStore()
  const { store } = sample
  const publisher = createPublisher({
    store,
    folder: await bringPublished(sample),
    now: () => Date.now(),
    onFailure: (failure) => {
      throw failure
    },
  })
  await publisher.publish(code)
  const site = JSON.parse((await publisher.siteDocument(code))?.json ?? 'null') as SiteDocument
  const list = await publisher.sliceList(code)
  const model = await store.getSite(code)
  const grid = openGridOfSite(site.facts, site.controlPoints)
  if (!list || !model || !grid.ok) throw new Error('the sample is not published')
  const slices = list.slices.map((slice) => ({ ...slice, url: `file://${sample.folder}${slice.url}` }))
  const engine = openEngine({ startSession: startNativeSession })
  const keeper = createSliceKeeper(engine, { ...list, slices }, async ({ url }) => {
    const file = await publisher.sliceFile(code, url.split('/').at(-1) ?? '')
    if (!file) throw new Error(`no slice ${url}`)
    return new Uint8Array(await readFile(file))
  })
  const networks: Record<string, ReturnType<typeof networkDocument>> = {}
  const surroundings = async (day: string, days: number) => {
    const asOfEpochMs = Date.parse(`${day}T00:00:00Z`)
    networks[day] ??= networkDocument(store, code, model, asOfEpochMs)
    return {
      stretch: { fromEpochMs: asOfEpochMs - days * dayMs, asOfEpochMs },
      network: await networks[day],
      around: {
        barriers: barriersAt(site.works, grid.value, asOfEpochMs),
        waterUnitWeightKnPerM3: siteWater(site.facts).unitWeightKnPerM3,
      },
    }
  }
  return {
    series: site.series.map(({ id }) => id),
    ask: async (query) => (await keeper.ask(query)).columns,
    numberOf: (id) => site.series.find((one) => one.id === id)?.series ?? -1,
    async caseAt(id, day, days) {
      const subject = site.series.find((one) => one.id === id)
      if (!subject) throw new Error(`no series ${id}`)
      const { stretch, network, around } = await surroundings(day, days)
      const companions = companionsOf(site, subject, { network, ...around })
      const all = [
        ...[...companions.same, ...companions.other, ...companions.byHand].map((one) => one.series),
        ...companions.ofLogger,
        ...companions.checksums,
        ...companions.drivers.map((one) => one.series),
      ].map((one) => one.series)
      const [hours, readings] = [
        await keeper.ask(knownHours({ ...stretch, series: [...new Set(all)] })),
        await keeper.ask(knownReadings({ ...stretch, series: subject.series })),
      ]
      return reviewCaseOf(
        site,
        { subject, companions, ...stretch },
        { hours: hours.columns, readings: readings.columns },
        {
          network,
          battery: null,
          beside: companions.logger === null ? [] : loggersBeside(site, companions.logger),
        },
      )
    },
    async patchAt(point, radiusMetres, measure, day, days) {
      const { stretch, network, around } = await surroundings(day, days)
      const middle = placesOf(site).get(point) ?? null
      const subjects = seriesInPatch(
        site,
        { kind: 'around', radiusMetres },
        middle,
        stretch.asOfEpochMs,
      ).filter((one) => one.measure === measure)
      const question = patchQuestion(site, subjects, network, around, stretch)
      const begun = performance.now()
      const hours = await keeper.ask(knownHours({ ...stretch, series: question.hours }))
      const numbers = subjects.map(({ series }) => series)
      const readings = await keeper.ask(knownReadingsOf({ ...stretch, series: numbers }))
      const fetchedMs = performance.now() - begun
      return {
        fetchedMs,
        cases: casesOfPatch(site, question, { hours: hours.columns, readings: readings.columns }),
      }
    },
    site,
    store,
    publisher,
    async frozenStates(cutOffEpochMs) {
      const evaluation = { revision: -1, behind: true, evaluatedAtEpochMs: null, failure: null }
      const freezing = createFreezing({
        store,
        // Nothing was evaluated: alerts are no part of what is asked.
        alerts: { evaluated: async () => ({ standing: { evaluation } as LevelsStanding, ways: [] }) },
        folder: join(sample.folder, 'frozen'),
        slicesFolder: join(sample.folder, 'slices'),
        software: 'test',
        now: () => Date.now(),
      })
      const frozen = await freezing.freeze(code, cutOffEpochMs, { account: null, name: 'A. Tester' })
      if (!frozen.ok) throw new Error(frozen.issues.map(({ message }) => message).join(' '))
      const bytes = await freezing.document(frozen.value.set, 'state')
      await freezing.close()
      return JSON.parse(Buffer.from(bytes).toString()) as StateDocument
    },
    async close() {
      await engine.close()
      await publisher.close()
      await sample.close()
    },
  }
}
