import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Layout } from '#contract/layout.ts'
import { intakeLogger, intakeSite, wideLayout } from '../../support/intake-site.ts'
import { type OpenIntake, openIntake } from '../../support/open-intake.ts'

const book: NonNullable<Layout['levelBook']> = {
  lineColumn: 'line',
  setupColumn: 'setup',
  behindColumn: 'behind',
  backsightColumn: 'backsight',
  distanceColumn: 'metres',
  benchmarks: [{ name: 'VB-3', levelMetres: 5.214 }],
  closureMmPerRootKm: 4,
  share: 'setups',
  turningPoints: '^TP',
}
const bookLayout: Layout = {
  ...wideLayout,
  id: 'level-book',
  title: 'Level book, a row a setup',
  time: { columns: ['time'], pattern: 'yyyy-MM-dd HH:mm', zone: 'UTC' },
  channels: {
    shape: 'long',
    loggerColumn: null,
    loggerName: 'LEVELLING',
    channelColumn: 'ahead',
    valueColumn: 'foresight',
  },
  levelBook: book,
  fileNamePattern: '^book_.*\\.csv$',
}
const headings = 'time,line,setup,behind,ahead,backsight,foresight,metres'
const loop = [
  '2027-03-03 08:00,L1,1,VB-3,SP-01,1.2000,1.8715,60',
  '2027-03-03 08:04,L1,2,SP-01,TP-1,1.4000,1.3594,60',
  '2027-03-03 08:08,L1,3,TP-1,SP-02,1.5000,1.5000,60',
  '2027-03-03 08:12,L1,4,SP-02,VB-3,1.7000,1.0682,60',
]
const second = [
  '2027-03-03 09:00,L2,1,VB-3,SP-03,1.0000,1.5000,50',
  '2027-03-03 09:04,L2,2,SP-03,VB-3,1.5000,1.0050,50',
]

let open: OpenIntake
beforeEach(async () => {
  const loggers = [{ ...intakeLogger('LEVELLING', 'SQ-LEVEL-1', null), kind: 'survey' as const }]
  open = await openIntake({ model: intakeSite(loggers), layouts: [bookLayout] })
})
afterEach(() => open.close())

const take = (...rows: string[]) => open.take('book_20270303.csv', `${[headings, ...rows].join('\n')}\n`)

describe('a level book', () => {
  test('gives adjusted levels of its points, and its receipt says how the line closed', async () => {
    const receipt = await take(...loop)
    expect(receipt).toMatchObject({ outcome: 'taken', accepted: 2, quarantined: 0, absent: 0 })
    expect(receipt.message).toContain('it closes to +0.90 mm, 1.96 mm allowed (4 mm/√km)')
    expect(await open.readings()).toEqual([
      ['LEVELLING/SP-01', '2027-03-03T08:00:00Z', 4.54228],
      ['LEVELLING/SP-02', '2027-03-03T08:08:00Z', 4.58243],
    ])
    const [kept] = await open.store.listBatches('test-quay')
    expect(kept?.message).toBe(receipt.message)
  })

  test('with a line that does not close sets its readings aside and takes the other line', async () => {
    const receipt = await take(...loop, ...second)
    expect(receipt).toMatchObject({ outcome: 'taken-in-part', accepted: 2, quarantined: 1 })
    expect(receipt.message).toContain('Level line L2 from VB-3 to VB-3 does not close: −5.00 mm')
    expect(await open.store.listQuarantined('test-quay')).toMatchObject([
      { code: 'level-line-open', line: 6, column: 'level line L2', value: '-5.00', readings: 1 },
    ])
  })

  test('whose row cannot be read loses the whole line, every reading of it counted', async () => {
    const receipt = await take(
      loop[0] ?? '',
      (loop[1] ?? '').replace('08:04', 'noon'),
      ...loop.slice(2),
      ...second.map((row) => row.replace('1.0050', '1.0000')),
    )
    expect(receipt).toMatchObject({ accepted: 1, quarantined: 2 })
    const entries = await open.store.listQuarantined('test-quay')
    expect(entries.map(({ code, readings }) => [code, readings])).toEqual([
      ['level-line-broken', 2],
      ['time-unreadable', 0],
    ])
    expect(entries[0]?.message).toContain('setup 2 is missing or could not be read')
  })

  test('of a logger that is not registered is held, line and all', async () => {
    await open.close()
    open = await openIntake({ layouts: [bookLayout] })
    const receipt = await take(...loop)
    expect(receipt).toMatchObject({ accepted: 0, quarantined: 2 })
    expect((await open.store.listQuarantined('test-quay')).map(({ code }) => code)).toEqual([
      'logger-unknown',
      'logger-unknown',
    ])
  })

  test('can be looked at again, line by line, as it was taken', async () => {
    const { sha256 } = await take(...loop, ...second)
    // A later version of the layout does not change what was taken.
    await open.store.putLayout(
      'test-quay',
      { ...bookLayout, version: 2, levelBook: { ...book, closureMmPerRootKm: 40 } },
      { author: 'tester', reason: 'test', atEpochMs: Date.UTC(2027, 3, 1) },
    )
    const lines = await open.intake.levelLines('test-quay', sha256)
    expect(lines?.map(({ line, taken }) => [line, taken])).toEqual([
      ['L1', true],
      ['L2', false],
    ])
    expect(lines?.[0]?.setups[1]).toMatchObject({
      setup: 2,
      behind: 'SP-01',
      ahead: 'TP-1',
      backsightMetres: 1.4,
      foresightMetres: 1.3594,
      adjustedMetres: 4.58265,
    })
    expect(lines?.[1]?.setups.map(({ adjustedMetres }) => adjustedMetres)).toEqual([null, null])
    expect(await open.intake.levelLines('test-quay', 'ff')).toBeNull()
  })

  test('without a column that it needs is refused', async () => {
    const receipt = await open.take('book_1.csv', `${headings.replace(',metres', '')}\n`)
    expect(receipt.outcome).toBe('refused')
    expect(receipt.message).toContain('the length of the sights')
  })
})
