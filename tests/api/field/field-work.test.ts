import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { layoutSchema } from '#contract/layout.ts'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { entryId, fieldEntry, note } from '../../support/field-entries.ts'
import {
  coverageTest,
  fieldPresent,
  fieldSite,
  hour,
  packets,
  reading,
  receiverRecord,
} from '../../support/field-site.ts'
import { type OpenField, openField } from '../../support/open-field.ts'

const site = 'test-quay'
const morning = Date.UTC(2027, 9, 20, 8)
let open: OpenField
let nowEpochMs = fieldPresent

beforeEach(async () => {
  nowEpochMs = fieldPresent
  open = await openField(fieldSite(), () => nowEpochMs)
})
afterEach(async () => {
  expect(open.reports).toEqual([])
  await open.close()
})

const written = (number: number, body: FieldBody, more: Partial<FieldEntry> = {}) =>
  fieldEntry(number, body, { site, ...more })
const send = async (...entries: FieldEntry[]) => {
  const results = await open.field.add(site, entries)
  await open.field.settled()
  return results
}
/** Outcome and sentence of every entry, by the number that made it. */
const effects = async () => {
  const { entries } = await open.field.list(site, 0)
  return Object.fromEntries(
    entries.map(({ entry, effect }) => [entry.sequence, `${effect?.outcome}: ${effect?.sentence}`]),
  )
}

describe('readings by hand', () => {
  test('go on record of whatever read the sensor then, with a file, a receipt and a batch', async () => {
    const because = { confirmedBecause: 'Dipped twice,\n"really"' }
    await send(
      written(1, reading('SP-1', morning, 3.25)),
      written(2, { ...reading('SP-2', morning, 4.5), ...because } as FieldBody),
      written(3, reading('SP-2', morning + 6 * hour, 4.75)),
    )
    expect(await open.readings()).toEqual([
      ['DIPS/SP-1', morning, 3.25],
      ['DIPS/SP-2', morning, 4.5],
      ['LG-01/2', morning + 6 * hour, 4.75],
    ])
    const [receipt, ...others] = await open.store.listBatches(site)
    expect(others).toEqual([])
    expect(receipt).toMatchObject({
      batch: 1,
      outcome: 'taken',
      accepted: 3,
      layout: 'field-readings',
      from: 'readings by hand along the works',
    })
    const { entries } = await open.field.list(site, 0)
    expect(entries.map(({ effect }) => effect?.batch)).toEqual([1, 1, 1])
    expect(entries[2]?.effect?.sentence).toBe(
      'Taken as a reading of SP-2/water-level, on record of LG-01, channel 2.',
    )
    expect(open.changed).toEqual([site])
  })

  test('sent again are taken once, and a different value for the same instant is kept beside', async () => {
    await send(written(1, reading('SP-1', morning, 3.25)))
    await send(written(1, reading('SP-1', morning, 3.25)), written(2, reading('SP-1', morning, 3.5)))
    await send(written(3, reading('SP-1', morning, 3.25)))
    expect(await open.readings()).toEqual([['DIPS/SP-1', morning, 3.25]])
    expect(await open.store.listConflicts(site)).toMatchObject([{ keptRaw: 3.25, offeredRaw: 3.5 }])
    const said = await effects()
    expect(said[2]).toMatch(/^taken: .* 3\.25 is on record there for the same instant: both are kept/)
    expect(said[3]).toMatch(/^taken: [^:]*$/)
  })

  test('of what is not registered or wired stand, and are taken once it is', async () => {
    await send(
      written(1, reading('SP-9', morning, 1)),
      written(2, reading('SP-3', morning, 2)),
      written(3, reading('SP-1', morning, 3)),
    )
    expect(await effects()).toMatchObject({
      1: expect.stringMatching(/^refused: There is no sensor SP-9\/water-level/),
      2: expect.stringMatching(/^refused: No channel reads SP-3\/water-level/),
      3: expect.stringMatching(/^taken: /),
    })
    const signature = { author: 'tester', reason: 'wired', atEpochMs: 0 }
    const row = {
      logger: 'DIPS',
      channel: 'SP-3',
      sensor: 'SP-3/water-level',
      fromAt: 0,
      untilAt: null,
      reason: null,
    }
    await open.store.addRows(site, { wiring: [row] }, signature)
    await open.field.work(site)
    expect((await effects())[2]).toMatch(/^taken: /)
    expect(await open.readings()).toHaveLength(2)
  })

  test('of a tablet whose clock is a day wrong are told, and one from tomorrow never becomes true by waiting', async () => {
    const day = 24 * hour
    await send(
      written(1, reading('SP-1', fieldPresent + day, 1), { clockAheadMs: day }),
      written(2, reading('SP-1', fieldPresent - day, 2), { clockAheadMs: -day }),
      written(3, reading('SP-1', fieldPresent + 5 * 60_000, 3)),
      written(4, reading('SP-1', Date.UTC(1970, 0, 1), 4)),
      written(6, note('A day ahead'), { clockAheadMs: day }),
    )
    nowEpochMs += 3 * day
    await send(written(5, note('later')))
    const said = await effects()
    expect(said[1]).toMatch(/^refused: It would have been read at 2027-10-22T00:00:00Z.*24 hours ahead/)
    expect(said[2]).toMatch(/^taken: .*24 hours behind the server's/)
    expect(said[3]).toMatch(/^taken: /)
    expect(said[4]).toMatch(/^refused: .*before 1990/)
    expect(said[6]).toBe(
      "taken: It stands in the diary. The clock of the device was 24 hours ahead of the server's: look whether the instant is right.",
    )
    expect((await open.readings()).map(([, , raw]) => raw)).toEqual([2, 3])
  })
})

describe('notes', () => {
  test('become rows of the diary, with their place', async () => {
    const position = { eastingMetres: 500_001, northingMetres: 310_002, accuracyMetres: 5 }
    const damage = { ...note('Cable cut', 'LG-01'), kind: 'damage' } as FieldBody
    await send(
      written(1, damage, { position, author: 'B. Other' }),
      written(2, note(' Rain \ud800\u0000')),
      written(3, note('Rain')),
    )
    await send(written(4, note('')), written(1, damage, { position, author: 'B. Other' }))
    const diary = (await open.store.getSite(site))?.diary
    expect(
      diary?.map(({ kind, text, eastingMetres, author }) => [kind, text, eastingMetres, author]).sort(),
    ).toEqual([
      ['damage', 'LG-01: Cable cut', 500_001, 'B. Other'],
      ['note', 'No words', null, 'A. Walker'],
      ['note', 'Rain', null, 'A. Walker'],
    ])
    expect(new Set(Object.values(await effects()))).toEqual(new Set(['taken: It stands in the diary.']))
  })
})

describe('coverage tests', () => {
  const rows = async () =>
    (await open.store.getSite(site))?.coverageTests.map(
      ({ test, spreadingFactor, sent, received, signalDbm }) => [
        test,
        spreadingFactor,
        sent,
        received,
        signalDbm,
      ],
    )

  test('are registered where all is known, and otherwise wait for the receiver, whichever comes first', async () => {
    await send(
      written(1, coverageTest('T-1', packets(7, 10, 4), packets(9, 10, 9))),
      written(2, coverageTest('T-2', packets(7, 10, null), packets(9, 10, 8))),
      written(3, receiverRecord('T-3', [12, 6])),
    )
    expect(await rows()).toEqual([
      ['T-1', 7, 10, 4, null],
      ['T-1', 9, 10, 9, null],
    ])
    const before = await effects()
    expect(before[1]).toMatch(/^taken: .*At least half of the packets arrived/)
    expect(before[2]).toMatch(/^kept: .*waits for the receiver's record/)
    expect(before[3]).toMatch(/^kept: Test T-3 has not arrived yet/)
    await send(
      written(4, receiverRecord('T-2', [7, 2], [9, 7], [12, 1])),
      written(5, coverageTest('T-3', packets(12, 10, null))),
    )
    expect((await rows())?.slice(2)).toEqual([
      ['T-2', 7, 10, 2, -101],
      ['T-2', 9, 10, 8, -101],
      ['T-3', 12, 10, 6, -101],
    ])
    const after = await effects()
    expect(after[2]).toMatch(/^taken: .*the test says 8 received and the receiver's record 7/)
    expect(after[4]).toMatch(/nothing was sent in this test; that part was not taken/)
    expect(after[5]).toMatch(/^taken: /)
  })

  test('that say what cannot be are refused, and their number stays free', async () => {
    await send(
      written(1, coverageTest('T-1', packets(7, 10, 11))),
      written(2, coverageTest('T-2')),
      written(3, coverageTest('T-3', packets(7, 10, null))),
      written(4, receiverRecord('T-3', [9, 3])),
    )
    expect(await rows()).toEqual([])
    const said = await effects()
    expect(said[1]).toMatch(/^refused: At spreading factor 7, 11 packets cannot have arrived of 10/)
    expect(said[2]).toMatch(/^refused: Test T-2 names no spreading factor/)
    expect(said[3]).toMatch(/^kept: .*does not name spreading factor 7\. If nothing arrived/)
    await send(written(5, coverageTest('T-1', packets(7, 10, 9)), { follows: [entryId(1)] }))
    expect(await rows()).toEqual([['T-1', 7, 10, 9, null]])
  })

  test('that stand side by side have no rows until a person chooses', async () => {
    await send(written(1, coverageTest('T-1', packets(7, 10, 9))))
    await send(written(2, coverageTest('T-1', packets(7, 10, 3)), { author: 'B. Other' }))
    expect(await rows()).toEqual([])
    expect((await effects())[1]).toMatch(/^kept: .*stand side by side/)
    const resolution = {
      kind: 'resolution',
      subject: 'coverage-test:T-1',
      chosen: entryId(2),
      reason: 'Counted again',
    } as const
    await send(written(3, resolution, { follows: [entryId(1), entryId(2)] }))
    expect(await rows()).toEqual([['T-1', 7, 10, 3, null]])
    const said = await effects()
    expect(said[1]).toMatch(/^kept: Another entry .* stands in its place/)
    expect(said[2]).toMatch(/^taken: /)
    expect(said[3]).toMatch(/^kept: It decides/)
  })

  test('never take the place of a test that was not written here', async () => {
    const row = { test: 'T-1', at: morning, eastingMetres: 1, northingMetres: 2, accuracyMetres: 3 }
    const more = {
      mode: 'with-internet',
      logger: null,
      spreadingFactor: 7,
      sent: 10,
      received: 9,
      signalDbm: null,
      author: 'desk',
      gateway: null,
    } as const
    await open.store.addRows(
      site,
      { coverageTests: [{ ...row, ...more }] },
      { author: 'desk', reason: '-', atEpochMs: 0 },
    )
    await send(written(1, coverageTest('T-1', packets(7, 10, 3))))
    expect(await rows()).toEqual([['T-1', 7, 10, 9, null]])
    expect((await effects())[1]).toMatch(/^refused: Test T-1 is in the register already/)
  })
})

describe('a memory file', () => {
  const layout = layoutSchema.parse(
    JSON.parse(readFileSync('sample-site/layouts/logger-memory.json', 'utf8')),
  )
  const at = morning / 1000
  const text = `seconds|logger|channel|raw\n${[0, 1, 2].map((i) => `${at + i * 3600}|70411|2|${i + 0.5}`).join('\n')}\n`
  const sha256 = createHash('sha256').update(text).digest('hex')
  const attachments = [{ sha256, bytes: text.length, mediaType: 'text/plain', name: 'memory.txt' }]
  const body: FieldBody = {
    kind: 'memory-file',
    logger: 'LG-01',
    fileName: 'memory_SK7101_20271020.txt',
    takenAtEpochMs: morning,
  }
  async function* bytes() {
    yield new TextEncoder().encode(text)
  }
  const keep = async () => {
    await open.field.keepAttachment(site, sha256, 'text/plain', bytes())
    await open.field.settled()
  }

  test('is taken once its bytes are here: gaps fill, nothing doubles', async () => {
    await open.store.putLayout(site, layout, { author: 'tester', reason: 'test', atEpochMs: 0 })
    // What came by radio: the first and the last.
    const heard = text
      .split('\n')
      .filter((_, line) => line !== 2)
      .join('\n')
    async function* radio() {
      yield new TextEncoder().encode(heard)
    }
    const request = { fileName: 'memory_SK7101_20271019.txt', bytes: radio(), from: 'radio' }
    await open.intake.takeFile({ site, ...request, receivedAtEpochMs: morning })
    await send(written(1, body, { attachments }))
    expect((await effects())[1]).toMatch(/^kept: .* has not arrived yet/)
    await keep()
    expect((await effects())[1]).toBe('taken: 1 reading was new, 2 known already.')
    await keep()
    await send(written(1, body, { attachments }), written(2, body, { attachments, author: 'B. Other' }))
    expect(await open.readings()).toEqual([0, 1, 2].map((i) => ['LG-01/2', morning + i * hour, i + 0.5]))
    expect(await open.store.listBatches(site)).toHaveLength(2)
  })

  test('without a layout is refused once, and its entry learns when it is taken at the desk', async () => {
    await send(written(1, body, { attachments }))
    await keep()
    expect((await effects())[1]).toMatch(/^refused: .*layout/)
    await send(written(2, note('more')))
    expect(await open.store.listBatches(site)).toHaveLength(1)
    await open.store.putLayout(site, layout, { author: 'tester', reason: 'test', atEpochMs: 0 })
    await open.intake.retry(site, 1)
    await open.field.work(site)
    expect((await effects())[1]).toMatch(/^taken: 3 readings were new/)
  })
})

test('what stands as written says so, and what came under the id of another does nothing', async () => {
  const check = {
    kind: 'second-check',
    instrument: 'SP-1',
    entry: entryId(90),
    agreed: true,
    found: '',
  } as const
  const step = {
    kind: 'commissioning-step',
    logger: 'LG-01',
    commissioning: entryId(91),
    step: 'clock',
    outcome: 'done',
    reason: '',
    evidence: {},
  } as const
  const signature = {
    kind: 'commissioning-signature',
    logger: 'LG-01',
    commissioning: entryId(91),
    entries: [entryId(2), entryId(92)],
    statement: 'As found',
  } as const
  await send(written(1, check), written(2, step), written(3, signature))
  await send({ ...written(4, reading('SP-1', morning, 9)), id: entryId(2) })
  expect(await effects()).toEqual({
    1: 'kept: Agrees with SP-1 as recorded. What it checked has not arrived yet.',
    2: 'kept: Kept with the commissioning of LG-01.',
    3: 'kept: Kept with the commissioning of LG-01. 1 of the steps signed have not arrived yet.',
    4: expect.stringMatching(/^refused: It came under the id of another entry/),
  })
  expect(await open.readings()).toEqual([])
})

test('what was done and not yet recorded as done is found done, and nothing is doubled', async () => {
  const { recordFieldEffects } = open.store
  open.store.recordFieldEffects = () => Promise.reject(new Error('the disk is full'))
  await send(
    written(1, reading('SP-1', morning, 3.25)),
    written(2, note('Rain')),
    written(3, coverageTest('T-1', packets(7, 10, 9))),
    written(4, receiverRecord('T-1', [7, 9])),
  )
  expect(new Set(Object.values(await effects()))).toEqual(new Set(['undefined: undefined']))
  expect(open.reports.splice(0)).toHaveLength(3)
  open.store.recordFieldEffects = recordFieldEffects
  await open.field.work(site)
  expect(Object.values(await effects()).map((said) => said.slice(0, 6))).toEqual(Array(4).fill('taken:'))
  const model = await open.store.getSite(site)
  expect([model?.diary.length, model?.coverageTests.length]).toEqual([1, 1])
  expect(await open.readings()).toHaveLength(1)
  expect(await open.store.listBatches(site)).toHaveLength(1)
})

test('one that cannot be worked on is reported, holds up no other, and is tried again', async () => {
  const { takeFile } = open.intake
  open.intake.takeFile = (request) =>
    request.fileName.endsWith('-1.csv') ? Promise.reject(new Error('the disk is full')) : takeFile(request)
  await send(written(1, reading('SP-1', morning, 1)))
  nowEpochMs += 1000
  await send(written(2, reading('SP-1', morning + hour, 2)), written(3, note('Rain')))
  expect(Object.values(await effects()).map((said) => said.slice(0, 6))).toEqual([
    'undefi',
    'taken:',
    'taken:',
  ])
  expect(open.reports.splice(0).join()).toMatch(/Field work of test-quay, readings: .*the disk is full/)
  open.intake.takeFile = takeFile
  await open.field.work(site)
  expect((await open.readings()).map(([, , raw]) => raw)).toEqual([1, 2])
})
