import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Episode } from '#domain/alerts/episode.ts'
import { beginLevels, seriesNeeded } from '#domain/alerts/fold-levels.ts'
import { draftOf } from '#domain/levels/levels-csv.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { watchedOfSeries } from '#domain/site/vocabulary.ts'
import { judgeProposal } from '../../../api/levels/judge-proposal.ts'
import { valuesOfStore } from '../../../api/levels/values-of-store.ts'
import { readRecipe } from '../../../api/slices/recipe.ts'
import { openSampleStore, type SampleStore } from '../../support/open-sample-store.ts'
import { readSampleSite } from '../read-sample-site.ts'

const site = 'skarrow-quay'
let sample: SampleStore
let model: SiteModel
let episodes: ReadonlyMap<string, readonly Episode[]>

beforeAll(async () => {
  sample = await openSampleStore()
  model = (await sample.store.getSite(site)) as SiteModel
  const presentEpochMs = model.facts.presentEpochMs as number
  const folding = beginLevels(model.triggerLevels, model.stages)
  await valuesOfStore(sample.store)({
    site,
    model,
    series: [...seriesNeeded(model.triggerLevels)],
    fromEpochMs: model.stages[0]?.startsAt ?? 0,
    untilEpochMs: presentEpochMs,
    onValues: folding.take,
  })
  episodes = folding.episodes(presentEpochMs)
}, 180_000)
afterAll(() => sample.close())

const held = (level: string) =>
  (episodes.get(level) ?? []).filter(({ heldAtEpochMs }) => heldAtEpochMs !== null)
const day = (epochMs: number | null | undefined) =>
  epochMs == null ? 'still' : new Date(epochMs).toISOString().slice(0, 10)

test('what is planted in the ground is raised by every level that it reaches', () => {
  // truth/anomalies.csv, A2: the drain leaks from 9 July; what follows is the survey or hour that first shows it.
  expect(
    [
      'SP-31 settlement 1',
      'SP-31 settlement 2',
      'SP-32 settlement 1',
      'TL-07 tilt 1',
      'CR-05 opening 1',
      'SP-31 less SP-30',
      'Terrace at SP-31',
    ].map((level) => [level, day(held(level)[0]?.crossedAtEpochMs), day(held(level).at(-1)?.leftAtEpochMs)]),
  ).toEqual([
    ['SP-31 settlement 1', '2027-07-14', 'still'],
    ['SP-31 settlement 2', '2027-07-21', 'still'],
    ['SP-32 settlement 1', '2027-07-21', 'still'],
    ['TL-07 tilt 1', '2027-07-17', 'still'],
    ['CR-05 opening 1', '2027-07-23', 'still'],
    ['SP-31 less SP-30', '2027-07-21', 'still'],
    ['Terrace at SP-31', '2027-07-17', 'still'],
  ])
  // D10: the struts carry it, hot or not.
  expect(held('ST-02 force 1').length).toBeGreaterThan(0)
})

test('the radio dropout raises silence of every strut behind it, and of no other', () => {
  // A3, LG-19: 3 August 07:30 to 17 August 16:00.
  const [from, until] = [Date.UTC(2027, 7, 3, 7, 30), Date.UTC(2027, 7, 17, 16)]
  const during = model.triggerLevels
    .filter(({ watches }) => watches === 'silence')
    .filter(({ id }) => held(id).some((one) => one.crossedAtEpochMs > from && one.crossedAtEpochMs < until))
  expect(during.map(({ series }) => series)).toEqual(
    ['ST-05', 'ST-06', 'ST-07', 'ST-08'].map((strut) => `${strut}/force`),
  )
  for (const { id } of during) {
    const [first] = held(id).filter((one) => one.crossedAtEpochMs > from)
    // Two hours after the last reading that came through.
    expect(day(first?.crossedAtEpochMs)).toBe('2027-08-03')
    // Not one an hour: readings that come singly end none.
    expect(held(id).length).toBeLessThan(12)
  }
})

test('the piezometer that drifts down reaches no level, nor does the one beside it', () => {
  // A1. Its levels lie above; that it drifts is for the review of anomalies, not for levels.
  const levels = model.triggerLevels.filter(
    ({ series, watches }) => /^PZ-0[56]C\//.test(series) && watches !== 'silence',
  )
  expect(new Set(levels.map(({ series }) => series.replace(/\/.*/, '')))).toEqual(
    new Set(['PZ-05C', 'PZ-06C']),
  )
  expect(levels.filter(({ id }) => held(id).length > 0)).toEqual([])
})

test('every kind of level is shown, and each that can has persistence or hysteresis somewhere', () => {
  const shown = new Set(model.triggerLevels.map(({ watches }) => watches ?? 'value'))
  expect(watchedOfSeries.filter((kind) => !shown.has(kind))).toEqual(['change'])
  const critical = readSampleSite().instruments.filter((one) => one.critical)
  expect(critical.length).toBeGreaterThan(0)
  for (const { id } of critical)
    expect([
      id,
      model.triggerLevels.some(({ series, watches }) => watches === 'silence' && series.startsWith(id)),
    ]).toEqual([id, true])
})

test('persistence and hysteresis lose no crossing: the first of each level is the first value that reached it', () => {
  for (const level of ['IP-03 deflection 1', 'TL-07 tilt 1', 'CR-05 opening 1', 'ST-02 force 1']) {
    const all = episodes.get(level) ?? []
    expect(held(level).length).toBeGreaterThan(0)
    expect(all[0]?.crossedAtEpochMs).toBeLessThanOrEqual(held(level)[0]?.crossedAtEpochMs ?? 0)
  }
  // Without them IP-03 would have come and gone 116 times around its level.
  expect(held('IP-03 deflection 1').length).toBeLessThan(10)
})

test('proposed anew as they are, all of them would be taken, and what warns of them is known', async () => {
  const { series } = await readRecipe(sample.store, site, model)
  const judged = judgeProposal({
    model: { ...model, triggerLevels: [] },
    series,
    changes: model.triggerLevels.map((level) => ({
      kind: 'add' as const,
      level: draftOf(level),
      before: null,
    })),
    author: 'Geotechnical designer',
    reason: 'as designed',
    episodes: new Map(),
    presentEpochMs: model.facts.presentEpochMs as number,
  })
  const remarks = judged.ok ? judged.value : []
  expect(judged.ok).toBe(true)
  expect(remarks.filter(({ severity }) => severity === 'fault')).toEqual([])
  const warned = remarks.map(({ code, level }) => `${code} ${level?.replace(/^\S+ /, '')}`)
  // Between the stages level 2, which no stage bounds, is alone.
  expect([...new Set(warned)].sort()).toEqual([
    'hole-after-stage pressure 1 at base slab',
    'hole-after-stage pressure 1 at stage 2',
    'hole-after-stage pressure 1 at stage 3',
  ])
})
