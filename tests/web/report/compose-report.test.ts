import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import { findRevisions } from '../../../web/derived/report/find-revisions.ts'
import { composeReport } from '../../../web/report/compose-report.ts'
import type { Block, ReportDocument, Table, Words } from '../../../web/report/document.ts'
import { writeHtml } from '../../../web/report/html/write-html.ts'
import {
  june,
  openReportSite,
  quarters,
  type ReportSite,
  reportSite,
  truth,
  weekManifest,
} from '../../support/open-report-site.ts'

const sensors = Object.keys(truth) as (keyof typeof truth)[]
const settlement = 'SP-1/settlement'
const week = { fromEpochMs: june(8), untilEpochMs: june(15) }
const weekBefore = { fromEpochMs: june(1), untilEpochMs: june(8) }

let open: ReportSite
let before: FrozenSet
let now: FrozenSet

// The truth: the settlement's logger was out of reach for six hours of 5 June and its memory came on 9 June; the
// barometer of four hours of 6 June came on 10 June; on 11 June the settlement got another factor, from 7 June on.
const outOfReach = [june(5), june(5, 6)] as const
const barometerLate = [june(6), june(6, 4)] as const
const factor = 1.1
const isLate = (sensor: string, at: number) =>
  (sensor === settlement && at >= outOfReach[0] && at < outOfReach[1]) ||
  (sensor === 'BA-1/barometric-pressure' && at >= barometerLate[0] && at < barometerLate[1])

beforeAll(async () => {
  open = await openReportSite()
  const reading = (receivedAt: number | null) => (sensor: keyof typeof truth) => (at: number) => ({
    sensor,
    atEpochMs: at,
    raw: truth[sensor](at),
    ...(receivedAt === null ? {} : { receivedAfterMs: receivedAt - at }),
  })
  const soon = reading(null)
  await open.take(
    sensors.flatMap((sensor) =>
      quarters(june(1), june(8, 6))
        .filter((at) => !isLate(sensor, at))
        .map(soon(sensor)),
    ),
    june(8, 6),
  )
  before = await open.freeze(june(8, 6))
  await open.take(quarters(...outOfReach).map(reading(june(9))(settlement)), june(9))
  await open.take(quarters(...barometerLate).map(reading(june(10))('BA-1/barometric-pressure')), june(10))
  await open.recalibrate(factor, june(7))
  // In the second week the gauges fell silent for two days; one pair of readings came too late.
  await open.take(
    sensors.flatMap((sensor) =>
      quarters(june(8, 6), june(15, 6))
        .filter((at) => !(sensor.includes('force') && at >= june(12) && at < june(14)))
        .map(soon(sensor)),
    ),
    june(15, 6),
  )
  now = await open.freeze(june(15, 6))
}, 60_000)
afterAll(() => open.close())

const second = () => weekManifest(now, { set: before, untilEpochMs: weekBefore.untilEpochMs }, week)
const rounded = (value: number) => Math.round(value * 100) / 100

describe('revised values', () => {
  test('each that the truth changed is found, with what it was, what it is and why, and no other', async () => {
    const sources = await open.sources(second())
    const idOf = new Map(sources.now.site.series.map(({ series, id }) => [series, id]))
    const found = (await findRevisions(sources)) ?? []
    const told = (id: string) =>
      found
        .filter(({ series }) => idOf.get(series) === id)
        .map(({ atEpochMs, before, after, reason }) => ({ atEpochMs, before, after, reason }))
    const value = (at: number) => truth[settlement](at)
    expect(told(settlement)).toEqual([
      ...quarters(...outOfReach).map((atEpochMs) => ({
        atEpochMs,
        before: null,
        after: rounded(value(atEpochMs)),
        reason: 'received',
      })),
      ...quarters(june(7), june(8, 6))
        .filter((at) => rounded(value(at) * factor) !== rounded(value(at)))
        .map((atEpochMs) => ({
          atEpochMs,
          before: rounded(value(atEpochMs)),
          after: rounded(value(atEpochMs) * factor),
          reason: 'calibration',
        })),
    ])
    expect(told('BA-1/barometric-pressure').map(({ reason }) => reason)).toEqual(
      quarters(...barometerLate).map(() => 'received'),
    )
    // A barometer reading may be 45 minutes old, so the first three quarters of an hour had one.
    expect(told('PZ-1/pore-pressure').filter(({ before }) => before === null)).toMatchObject(
      quarters(june(6, 0, 45), barometerLate[1]).map((atEpochMs) => ({ atEpochMs, reason: 'companion' })),
    )
    expect(new Set(found.map(({ series }) => idOf.get(series)))).toEqual(
      new Set([settlement, 'BA-1/barometric-pressure', 'PZ-1/pore-pressure']),
    )
  })

  test('a first issue has none to tell, and says so', async () => {
    const first = weekManifest(before, null, weekBefore)
    expect(await findRevisions(await open.sources(first))).toBeNull()
    expect(textOf(await composeReport(await open.sources(first)))).toContain(
      'This is the first weekly report of this site',
    )
  })
})

describe('the report', () => {
  test('says what was missing, what moved and what cannot be concluded', async () => {
    const document = await composeReport(await open.sources(second()))
    const text = textOf(document)
    expect(document.statement[0]).toEqual({
      block: 'paragraph',
      words: 'The settlement goes on as expected.',
    })
    expect(document.facts).toMatchObject({
      site: 'Test Quay',
      number: 'Weekly report 2',
      period: '8 Jun 2027 to 14 Jun 2027, site time (Atlantic/Azores)',
      cutOff: 'Data received until 15 Jun 2027 06:00',
    })
    // What the first page must hold besides; the statement before it is the engineer's alone.
    const figures = document.statement.at(-1)
    expect(document.statement).toHaveLength(3)
    expect(figures && blockText(figures)).toMatch(/no part of the statement/)
    expect(figures && blockText(figures)).toMatch(/Without current data: \d+ of \d+ channels/)
    expect(figures && blockText(figures)).toMatch(/Revised since issue 1: \d+ readings of 3 series/)
    const completenessText = text.slice(text.indexOf('Completeness and provisional share'))
    const [, late, missing] = completenessText.match(/came in time, (\S+) late and (\S+) not at all/) ?? []
    expect(figures && blockText(figures)).toContain(`${late} late, ${missing} not at all`)
    // Counted by hand: 7 days of 96 quarters; the gauges lack two days of them.
    const completeness = tableOf(document, 'completeness')
    const rows = completeness.rows.filter((row) => !('over' in row)).map((row) => row as readonly Words[])
    const gauges = rows.filter((row) => String(row[1]).includes('force'))
    for (const row of gauges) expect(row.slice(2, 9)).toEqual(['672', '480', '0', '192', '71.4', '0', '2 d'])
    expect(text).toContain('Where nothing was read, nothing can be concluded')
    expect(text).toContain('The works have no alignment')
    expect(text).toContain('no string of points down a hole')
    expect(text).toContain('between so few no surface can be drawn')
    expect(text).toContain('another calibration')
    expect(text).toContain('No alert does not mean no movement')
    expect(text).toMatch(/SP-1\/settlement 2 holds from 7 Jun 2027/)
    expect(tableOf(document, 'parts').rows.length).toBe(now.parts.length)
  })

  test('a site without levels, and ten readings, are told in words', async () => {
    const small = await openReportSite(
      (({ triggerLevels: _, ...rest }) => ({ ...rest, triggerLevels: [] }))(reportSite()),
    )
    try {
      await small.take(
        quarters(june(1), june(1, 2, 30)).map((atEpochMs) => ({ sensor: settlement, atEpochMs, raw: 1 })),
        june(1, 3),
      )
      const set = await small.freeze(june(2))
      const text = textOf(
        await composeReport(
          await small.sources(weekManifest(set, null, { fromEpochMs: june(1), untilEpochMs: june(2) })),
        ),
      )
      expect(text).toContain('No alert was raised or open in the period')
      expect(text).toContain('nothing is watched here')
      expect(text).toContain('SP-1 settlement (critical) | 96 | 10 | 0 | 86 | 10.4')
      expect(text).toContain('never read')
    } finally {
      await small.close()
    }
  }, 60_000)

  test('nothing that a person reads says that all is well', async () => {
    const text = textOf(await composeReport(await open.sources(second())))
    expect(text).not.toMatch(/\b(safe|ok|normal|real-time|dashboard)\b/i)
  })
})

describe('the same manifest', () => {
  const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')

  test('gives the same bytes on another day and in another zone of the machine, without chance', async () => {
    const made = await open.make(second())
    expect(Buffer.from(made.pdf.subarray(0, 5)).toString()).toBe('%PDF-')
    const zone = process.env.TZ
    vi.useFakeTimers({ toFake: ['Date'], now: Date.UTC(2031, 11, 24, 17) })
    const chance = vi.spyOn(Math, 'random').mockImplementation(() => {
      throw new Error('a report was made by chance')
    })
    try {
      process.env.TZ = 'Pacific/Auckland'
      expect(new Date(0).getTimezoneOffset()).not.toBe(0)
      const again = await open.make(second())
      expect([sha256(again.html), sha256(again.pdf), again.pages]).toEqual([
        sha256(made.html),
        sha256(made.pdf),
        made.pages,
      ])
    } finally {
      chance.mockRestore()
      vi.useRealTimers()
      if (zone === undefined) delete process.env.TZ
      else process.env.TZ = zone
    }
  }, 60_000)

  test('asks for nothing in the language of the machine, and for none of its words', async () => {
    const refuse = (what: string) => {
      throw new Error(`${what} in the language of the machine`)
    }
    const named = <F extends new (locale?: string) => object>(format: F): F =>
      new Proxy(format, {
        construct: (target, [locale, ...rest]) =>
          locale === undefined ? refuse('a format') : Reflect.construct(target, [locale, ...rest]),
      })
    vi.stubGlobal('Intl', {
      ...Object.fromEntries(
        Object.getOwnPropertyNames(Intl).map((name) => [name, Intl[name as keyof typeof Intl]]),
      ),
      DateTimeFormat: named(Intl.DateTimeFormat as never),
      NumberFormat: named(Intl.NumberFormat as never),
    })
    const { prototype } = Intl.DateTimeFormat
    const { formatToParts } = prototype
    const isWord = ({ type, value }: Intl.DateTimeFormatPart) =>
      type !== 'literal' && type !== 'dayPeriod' && !/^\d+$/.test(value)
    const spies = [
      vi.spyOn(prototype, 'formatToParts').mockImplementation(function (this: Intl.DateTimeFormat, at) {
        const parts = formatToParts.call(this, at)
        return parts.some(isWord) ? refuse('a word for a day, a month or a zone') : parts
      }),
      vi.spyOn(prototype as { format: unknown }, 'format', 'get').mockImplementation(() => refuse('a date')),
      vi.spyOn(Number.prototype, 'toLocaleString').mockImplementation(() => refuse('a number')),
      vi.spyOn(Date.prototype, 'toLocaleString').mockImplementation(() => refuse('a date')),
      vi.spyOn(String.prototype, 'localeCompare').mockImplementation(() => refuse('an order')),
    ]
    try {
      expect((await open.make(second())).pages).toBeGreaterThan(5)
    } finally {
      for (const spy of spies) spy.mockRestore()
      vi.unstubAllGlobals()
    }
  }, 60_000)

  test('is the same with its fields in another order, as it comes back from where it is kept', async () => {
    const views = [{ address: 'sheet=history&selected=point:SP-1', caption: 'Settlement' }]
    const page = async (manifest: ReportManifest) =>
      writeHtml(await composeReport(await open.sources(manifest)))
    const reversed = <T extends object>(one: T): T =>
      Object.fromEntries(Object.entries(one).toReversed()) as T
    const made = await page({ ...second(), views })
    expect(made).toContain('Chosen views')
    const back = { ...second(), views: views.map(reversed) }
    expect(await page(reversed({ ...back, statement: reversed(back.statement) }))).toBe(made)
  })

  test('draws a chosen plan at the clock of its address, never after the period, with its filters', async () => {
    const at = (instant: number) => encodeURIComponent(new Date(instant).toISOString())
    const views = [
      { address: 'layers=works+labels+contours+water&find=SP&sheet=register', caption: 'Settlement points' },
      { address: `at=${at(june(10))}&without=barometer`, caption: 'As it stood' },
      { address: `at=${at(june(25))}`, caption: 'Later than the period' },
    ]
    const { blocks } = await composeReport(await open.sources({ ...second(), views }))
    const from = blocks.findIndex((one) => one.block === 'heading' && one.text === 'Chosen views')
    const chosen = blocks.slice(from)
    const of = (caption: string) => {
      const begin = chosen.findIndex((one) => one.block === 'heading' && one.text === caption)
      const [figure, said, table] = chosen.slice(begin + 1, begin + 4)
      if (figure?.block !== 'figure' || said?.block !== 'list' || table?.block !== 'table')
        throw new Error(`${caption} is not drawn`)
      expect(figure.tableId).toBe(table.id)
      return {
        caption: figure.caption,
        said: said.entries.join(' '),
        shown: table.rows.map((row) => String((row as readonly Words[])[0])),
      }
    }
    const found = of('Settlement points')
    expect(found.shown).toEqual(['SP-1'])
    expect(found.said).toMatch(/^1 symbol of \d+ shown, as the view was filtered: names with “SP”\./)
    expect(found.said).toContain('Shown on the page and not on paper: the piezometric level.')
    // One levelled point is no surface, which is told and not drawn.
    expect(found.said).toContain('no contours')
    const earlier = of('As it stood')
    expect(earlier.caption).toBe('As it stood, 10 Jun 2027 00:00')
    expect(earlier.said).toContain('without barometer')
    expect(earlier.shown).not.toContain('BA-1')
    expect(earlier.shown).toContain('SP-1')
    expect(of('Later than the period').caption).toBe('Later than the period, 15 Jun 2027 00:00')
  }, 60_000)

  test('draws a view that counts only what had been received so, and says where another cannot', async () => {
    const at = encodeURIComponent(new Date(june(5, 5)).toISOString())
    const views = [
      { address: `at=${at}&find=SP`, caption: 'As measured' },
      { address: `at=${at}&counted=known&find=SP`, caption: 'As known then' },
      { address: `at=${at}&counted=known&sheet=history&selected=point:SP-1`, caption: 'A history' },
      { address: 'counted=known&find=SP', caption: 'At the present' },
    ]
    const { blocks } = await composeReport(await open.sources({ ...second(), views }))
    const of = (caption: string, next: string | undefined) => {
      const heads = blocks.map((one) => (one.block === 'heading' ? one.text : null))
      return blocks
        .slice(heads.indexOf(caption), next === undefined ? undefined : heads.indexOf(next))
        .map(blockText)
        .join('\n')
    }
    const [measured = '', known = '', history = '', present = ''] = views.map(({ caption }, place) =>
      of(caption, views[place + 1]?.caption),
    )
    // Its logger was out of reach from midnight: what it read by 05:00 came on 9 June.
    expect(measured).toMatch(/^SP-1 \|.*\| 0 min$/m)
    expect(measured).not.toContain('received by then')
    expect(known).toMatch(
      /^SP-1 \| [^|]* \| No current data, a value of it came later \|[^\n]*\| 5 h 15 min$/m,
    )
    expect(measured).toContain(
      'Values count as measured: 1 series (hourglass) has a value that was taken by then and came later, not known then.',
    )
    expect(measured).toMatch(/^SP-1 \| [^|]* \| [^|]*, a value of it came later \|[^\n]*\| 0 min$/m)
    expect(known).toContain(
      'Only what had been received by then counts, up to a quarter of an hour before: 1 series (hourglass) has newer values that came later.',
    )
    expect(history).toContain('as measured, including what came later')
    expect(present.slice(0, present.indexOf('how what is shown stands'))).not.toMatch(/received|as measured/)
  }, 60_000)

  test('is not changed by readings that come afterwards; another word of it changes the bytes', async () => {
    const made = await open.make(second())
    await open.take([{ sensor: settlement, atEpochMs: june(15, 7), raw: 99 }], june(16))
    const again = await open.make(second())
    expect(sha256(again.pdf)).toBe(sha256(made.pdf))
    const statement = { ...second().statement, text: 'The settlement goes on.' }
    expect(sha256((await open.make({ ...second(), statement })).html)).not.toBe(sha256(made.html))
  }, 60_000)
})

const wordsText = (words: Words): string =>
  typeof words === 'string'
    ? words
    : words.map((run) => (typeof run === 'string' ? run : run.strong)).join('')

function blockText(block: Block): string {
  switch (block.block) {
    case 'heading':
      return block.text
    case 'paragraph':
      return wordsText(block.words)
    case 'list':
      return block.entries.map(wordsText).join('\n')
    case 'caution':
      return [block.heading, ...block.words.map(wordsText)].join('\n')
    case 'table':
      return [
        block.caption,
        ...block.rows.map((row) => ('over' in row ? row.over : row.map(wordsText).join(' | '))),
        ...(block.notes ?? []),
      ].join('\n')
    case 'figure':
      return `${block.caption} ${block.alternative}`
    default:
      return ''
  }
}

const textOf = ({ statement, blocks }: ReportDocument): string =>
  [...statement, ...blocks].map(blockText).join('\n')

function tableOf({ blocks }: ReportDocument, id: string): Table {
  const table = blocks.find((block): block is Table => block.block === 'table' && block.id === id)
  if (!table) throw new Error(`no table ${id}`)
  return table
}
