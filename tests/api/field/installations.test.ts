import { afterEach, beforeEach, expect, test } from 'vitest'
import type { FieldBody, InstallationBody } from '#domain/field/field-bodies.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { modelFaults } from '#domain/site/check-model.ts'
import { loadSiteFolder } from '../../../api/site-folder.ts'
import { smallSite } from '../../contract/small-site.ts'
import { recordedPiezometer } from '../../domain/field/recorded-piezometer.ts'
import { entryId, fieldEntry, note } from '../../support/field-entries.ts'
import { intakeLogger } from '../../support/intake-site.ts'
import { type OpenField, openField } from '../../support/open-field.ts'

const small = smallSite()
const site = small.facts.id
const model = {
  ...small,
  locations: small.locations.map((place) => ({ ...place, eastingMetres: 500_000, northingMetres: 310_000 })),
  loggers: [intakeLogger('LG-01', '70411', 4)],
}
const [point] = recordedPiezometer.points
const [sensor] = point?.sensors ?? []
if (!point || !sensor) throw new Error('a recorded piezometer has a sensor')
const wired = (channel: string): InstallationBody => ({
  ...recordedPiezometer,
  points: [{ ...point, sensors: [{ ...sensor, wiring: { logger: 'LG-01', channel } }] }],
})
const piezometer = wired('2')

let open: OpenField
beforeEach(async () => {
  open = await openField(model, () => Date.UTC(2027, 9, 21))
})
afterEach(async () => {
  expect(open.reports).toEqual([])
  await open.close()
})

const written = (number: number, body: FieldBody, more: Partial<FieldEntry> = {}) =>
  fieldEntry(number, body, { site, ...more })
const check = (of: number, agreed = true): FieldBody => ({
  kind: 'second-check',
  instrument: 'PZ-07',
  entry: entryId(of),
  agreed,
  found: agreed ? '' : 'Tape read wrongly',
})
const reading: FieldBody = {
  kind: 'reading',
  sensor: 'PZ-07A/pore-pressure',
  atEpochMs: Date.UTC(2027, 9, 20),
  raw: 5.5,
  confirmedBecause: null,
}
const second = { author: 'B. Second' }
const send = async (...entries: FieldEntry[]) => {
  await open.field.add(site, entries)
  await open.field.settled()
  const { entries: all } = await open.field.list(site, 0)
  return Object.fromEntries(
    all.map(({ entry, effect }) => [entry.sequence, `${effect?.outcome}: ${effect?.sentence}`]),
  )
}
const registered = async () => (await open.store.getSite(site))?.instruments.map(({ id }) => id)

test('an installation enters the register whole once a second person has checked it, and its readings after it', async () => {
  const first = await send(written(1, reading), written(2, piezometer))
  expect(first[1]).toMatch(/^refused: There is no sensor/)
  expect(first[2]).toMatch(/^kept: PZ-07 is recorded, not commissioned\. .*A second person has not checked/)
  const own = await send(written(3, check(2)))
  expect(own[2]).toMatch(/^kept: .*cannot check it/)
  expect(own[3]).toMatch(/counts for nothing/)
  expect(await registered()).toEqual([])
  const after = await send(written(4, check(2), { ...second, follows: [entryId(3)] }))
  expect(after[2]).toMatch(/^taken: PZ-07 is commissioned and in the register/)
  expect(after[1]).toMatch(/^taken: .*LG-01, channel 2/)
  expect(open.changed.at(-1)).toBe(site)
  const held = await open.store.getSite(site)
  expect(held && modelFaults(held)).toEqual([])
  expect(held?.zeroReadings).toHaveLength(3)
  expect(held?.calibrations).toMatchObject([{ sensor: 'PZ-07A/pore-pressure', author: 'A. Walker' }])
  expect(held?.wiring).toMatchObject([{ logger: 'LG-01', channel: '2', sensor: 'PZ-07A/pore-pressure' }])
  expect(await open.readings()).toEqual([['LG-01/2', Date.UTC(2027, 9, 20), 5.5]])
  const revision = await open.store.revision(site)
  await open.field.work(site)
  expect(await open.store.revision(site)).toBe(revision)
})

test('a check before its installation counts, an objection holds it up until a later check follows it', async () => {
  await send(written(1, check(2, false), second))
  expect((await send(written(2, piezometer)))[2]).toMatch(/^kept: .*did not agree: Tape read wrongly/)
  const after = await send(written(3, check(2), { ...second, follows: [entryId(1)] }))
  expect(after[2]).toMatch(/^taken: /)
})

test('two records of one instrument wait for a choice; a later one needs a check of its own; none changes the register', async () => {
  await send(written(1, piezometer), written(2, wired('3'), second))
  const both = await send(written(3, check(1), second), written(4, check(2)))
  expect(both[1]).toMatch(/^kept: .*stand side by side/)
  expect(both[2]).toMatch(/^kept: .*stand side by side/)
  const chosen = {
    kind: 'resolution',
    subject: 'installation:PZ-07',
    chosen: entryId(2),
    reason: 'Seen',
  } as const
  const resolved = await send(written(5, chosen, { follows: [entryId(1), entryId(2)] }))
  expect(resolved[2]).toMatch(/^taken: /)
  expect(resolved[1]).toMatch(/^kept: A later record/)
  const later = await send(written(6, wired('4'), { follows: [entryId(5)] }), written(7, check(6), second))
  expect(later[6]).toMatch(/^kept: PZ-07 is in the register already/)
  expect((await open.store.getSite(site))?.wiring.map(({ channel }) => channel)).toEqual(['3'])
})

test('what the checks of a folder refuse is not taken in part', async () => {
  const wrong = {
    ...piezometer,
    points: [{ ...point, sensors: [{ ...sensor, barometer: 'BA-99/barometric-pressure' }] }],
  }
  const said = await send(written(1, wrong), written(2, check(1), second))
  expect(said[1]).toMatch(/^refused: PZ-07 is complete and checked, but .*BA-99/)
  expect(await open.store.getSite(site)).toEqual(model)
})

test('a folder that is loaded again takes nothing back of what was recorded along the works', async () => {
  const folder = { model, layouts: [], hash: '' }
  await loadSiteFolder(open.store, folder, 'loaded', 0)
  await send(written(1, piezometer), written(2, check(1), second), written(3, note('Rain')))
  const before = await open.store.getSite(site)
  expect(before?.instruments).toHaveLength(1)
  expect(await loadSiteFolder(open.store, folder, 'loaded again', 0)).toEqual({ changed: 0 })
  expect(await open.store.getSite(site)).toEqual(before)
  const without = { ...folder, model: { ...model, loggers: [] } }
  await expect(loadSiteFolder(open.store, without, 'without its logger', 0)).rejects.toThrow(
    /does not go together with what was recorded along the works/,
  )
  expect(await open.store.getSite(site)).toEqual(before)
})

test('in whatever order they arrive, record, check and first reading come to the same', async () => {
  const three = [
    written(1, piezometer),
    written(2, check(1), second),
    written(3, { ...reading, raw: 7 } as FieldBody),
  ] as const
  const outcomes = []
  for (const order of [
    [0, 1, 2],
    [0, 2, 1],
    [1, 0, 2],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
  ]) {
    const own = await openField(model, () => Date.UTC(2027, 9, 21))
    for (const i of order) {
      await own.field.add(site, [three[i] as FieldEntry])
      if (i !== 1) await own.field.settled()
    }
    await own.field.settled()
    const { entries } = await own.field.list(site, 0)
    const said = entries.map(({ entry, effect }) => [entry.sequence, effect?.outcome])
    outcomes.push({
      model: await own.store.getSite(site),
      readings: await own.readings(),
      said: said.sort((one, other) => Number(one[0]) - Number(other[0])),
    })
    await own.close()
  }
  expect(outcomes[0]?.said).toEqual([
    [1, 'taken'],
    [2, 'kept'],
    [3, 'taken'],
  ])
  for (const outcome of outcomes) expect(outcome).toEqual(outcomes[0])
})

test('an installation that is in the register and not yet recorded as taken is found there', async () => {
  const { recordFieldEffects } = open.store
  await send(written(1, piezometer))
  open.store.recordFieldEffects = () => Promise.reject(new Error('the disk is full'))
  await send(written(2, check(1), second))
  expect(await registered()).toEqual(['PZ-07'])
  expect(open.reports.splice(0).length).toBeGreaterThan(0)
  open.store.recordFieldEffects = recordFieldEffects
  const revision = await open.store.revision(site)
  expect((await send(written(3, note('Rain'))))[1]).toMatch(/^taken: PZ-07 is commissioned/)
  // The note alone is new.
  expect(await open.store.revision(site)).toBe(revision + 1)
})
