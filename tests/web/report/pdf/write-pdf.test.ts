// @vitest-environment node
import { createHash } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { paragraph } from '../../../../web/report/document.ts'
import { type WrittenPdf, writePdf, writePdfSteps } from '../../../../web/report/pdf/write-pdf.ts'
import { elementsOf, openPdfBytes, type ReadElement, textsOfPage } from '../../../support/read-pdf.ts'
import { reportFonts } from '../../../support/report-fonts.ts'
import { history, madeReport, table } from '../made-report.ts'

// Clauses of ISO 32000-1 and ISO 14289-1 (PDF/UA-1) are named from memory: no text of them was at hand.

const fonts = reportFonts()
let written: WrittenPdf
let pdf: Awaited<ReturnType<typeof openPdfBytes>>
beforeAll(async () => {
  written = writePdf(madeReport(), fonts)
  pdf = await openPdfBytes(written.bytes)
})

const hashOf = ({ bytes }: WrittenPdf) => createHash('sha256').update(bytes).digest('hex')
const pageTexts = async (number: number) => (await textsOfPage(pdf, number)).map(({ text }) => text).join('|')
const allElements = async () => {
  const trees: ReadElement[] = []
  for (let number = 1; number <= pdf.numPages; number++)
    trees.push((await (await pdf.getPage(number)).getStructTree()) as ReadElement)
  return trees.flatMap(elementsOf)
}

test('the same report is the same bytes, and another is not', () => {
  expect(hashOf(writePdf(madeReport(), fonts))).toBe(hashOf(written))
  expect(hashOf(writePdf(madeReport({ title: 'Weekly report 8' }), fonts))).not.toBe(hashOf(written))
})

test('it is written in as many steps as it has pages, each told', () => {
  const shares: number[] = []
  const steps = writePdfSteps(madeReport(), fonts)
  for (let step = steps.next(); !step.done; step = steps.next()) shares.push(step.value)
  expect(shares).toHaveLength(written.pages)
  expect(shares.at(-1)).toBe(1)
})

test('it says what it is: title, language, marked, dated as the report (ISO 14289-1, 7.1, 7.2)', async () => {
  const { info, metadata } = await pdf.getMetadata()
  expect(info).toMatchObject({
    Title: 'Box & tunnel <north>: Weekly report 7',
    Language: 'en-GB',
    PDFFormatVersion: '1.7',
    CreationDate: 'D:20260309090000Z',
  })
  expect(metadata?.get('dc:title')).toBe('Box & tunnel <north>: Weekly report 7')
  expect(await pdf.getMarkInfo()).toMatchObject({ Marked: true })
  expect(await pdf.getViewerPreferences()).toMatchObject({ DisplayDocTitle: true })
})

test('pages are A4 upright or A3 on its side (ISO 216), and numbered', async () => {
  const millimetres = async (document: typeof pdf) =>
    (await document.getPage(1)).view.slice(2).map((points) => Math.round((points / 72) * 25.4))
  expect(await millimetres(pdf)).toEqual([210, 297])
  const onA3 = await openPdfBytes(writePdf(madeReport({ paper: 'A3' }), fonts).bytes)
  expect(await millimetres(onA3)).toEqual([420, 297])
  expect(written.pages).toBe(pdf.numPages)
  expect(await pageTexts(2)).toContain(`Page 2 of ${pdf.numPages}`)
})

test('every page carries site, number, cut-off, provisional share and watermark, as artifacts', async () => {
  for (let number = 1; number <= pdf.numPages; number++) {
    const margins = (await textsOfPage(pdf, number))
      .filter(({ belongsTo }) => belongsTo === 'Artifact')
      .map(({ text }) => text)
      .join('|')
    for (const words of [
      'Box & tunnel <north>',
      'Weekly report 7',
      'Data received until 8 March 2026 18:00 UTC',
      '12 % of the readings shown are provisional',
      'INVENTED SITE',
    ])
      expect(margins, `page ${number}`).toContain(words)
  }
})

test('no text is neither content nor artifact (ISO 14289-1, 7.1)', async () => {
  for (let number = 1; number <= pdf.numPages; number++)
    expect((await textsOfPage(pdf, number)).filter(({ belongsTo }) => belongsTo === null)).toEqual([])
})

describe('the structure tree (ISO 32000-1, 14.8.4)', () => {
  test('has headings without a gap, lists, tables, figures and contents', async () => {
    const roles = new Set((await allElements()).map(({ role }) => role))
    for (const role of ['H1', 'H2', 'H3', 'P', 'L', 'LI', 'Lbl', 'LBody', 'Table', 'TR', 'TH', 'TD'])
      expect(roles).toContain(role)
    for (const role of ['THead', 'TBody', 'Caption', 'Figure', 'TOC', 'TOCI', 'Link', 'Document'])
      expect(roles).toContain(role)
  })
  test('says every figure in words (ISO 14289-1, 7.3)', async () => {
    const figures = (await allElements()).filter(({ role }) => role === 'Figure')
    expect(figures.map(({ alt }) => alt)).toEqual([
      'Pore pressure at PZ-09 through the day. Pore pressure rises from 0 to 23 kPa.',
      'Pore pressure with depth at PZ-09. Pore pressure rises with depth.',
      'Every kind of mark. A hatched box, a clipped line and a word that runs upwards.',
    ])
  })
  test('tells the scope of every header cell (ISO 14289-1, 7.5)', () => {
    // The reader at hand gives no attributes: they are looked for in the file, whose structure is not compressed.
    const file = new TextDecoder('latin1').decode(written.bytes)
    const headers = [...file.matchAll(/\/S \/TH\n[\s\S]*?endobj/g)].map(([one]) => one)
    expect(headers.length).toBeGreaterThan(60)
    for (const one of headers) expect(one).toMatch(/\/O \/Table\n\/Scope \/(Row|Column)/)
  })
})

test('bookmarks are the headings, one below the other as they stand', async () => {
  const outline = await pdf.getOutline()
  expect(outline.map(({ title }) => title)).toEqual([
    'Statement of the engineer',
    'Contents',
    '1 Changes since the last issue',
    '2 Readings',
  ])
  expect(outline[3]?.items.map(({ title }) => title)).toEqual(['2.1 Pore pressure'])
  expect(outline[3]?.items[0]?.items.map(({ title }: { title: string }) => title)).toEqual([
    '2.1.1 What it rests on',
  ])
})

test('the list of contents gives the pages on which headings stand, and leads there', async () => {
  const contents = await pageTexts(1)
  for (let number = 2; number <= pdf.numPages; number++)
    if ((await pageTexts(number)).includes('2 |Readings'))
      expect(contents).toMatch(new RegExp(`Readings\\| ?${number}\\b`))
  const links = await (await pdf.getPage(1)).getAnnotations()
  expect(links.map(({ subtype }) => subtype)).toEqual(['Link', 'Link', 'Link', 'Link'])
  expect(await pdf.getDestination(String(links[3]?.dest))).not.toBeNull()
  // A link says in words where it leads (ISO 14289-1, 7.18.5).
  expect(links[3]?.contentsObj?.str).toMatch(/^Pore pressure, page \d+$/)
})

test('a long list of contents stands on one page, in two columns read one after the other, tagged and linked', async () => {
  const many = Array.from({ length: 84 }, (_, place) => ({
    block: 'heading' as const,
    level: (place % 12 === 0 ? 1 : 2) as 1 | 2,
    text: `Instrument ${place + 1}, settlement point${place % 5 === 0 ? ' on the quay beside the passage' : ''}`,
  }))
  const long = await openPdfBytes(
    writePdf(madeReport({ blocks: many.flatMap((one) => [one, paragraph('Seen.')]) }), fonts).bytes,
  )
  const onPages: number[] = []
  const places: (readonly [x: number, y: number])[] = []
  const said: string[] = []
  for (let number = 1; number <= long.numPages; number++) {
    const page = await long.getPage(number)
    for (const { subtype, rect, contentsObj } of await page.getAnnotations()) {
      expect(subtype).toBe('Link')
      onPages.push(number)
      places.push([rect[0], rect[3]])
      said.push(contentsObj?.str ?? '')
    }
  }
  // And the statement's own heading.
  expect(onPages).toHaveLength(many.length + 1)
  expect(new Set(onPages).size).toBe(1)
  expect(said.slice(1).map((words) => words.replace(/, page \d+$/, ''))).toEqual(many.map(({ text }) => text))
  const [page] = onPages
  const tree = (await (await long.getPage(page ?? 1)).getStructTree()) as ReadElement
  expect(elementsOf(tree).filter(({ role }) => role === 'TOCI')).toHaveLength(many.length + 1)
  // Down the left, then down the right.
  const turns = places.slice(1).filter(([, y], at) => y > (places[at]?.[1] ?? 0))
  expect(turns).toHaveLength(1)
  expect(turns[0]?.[0]).toBeGreaterThan(290)
})

test('texts of figures are texts, each once', async () => {
  const everything: string[] = []
  for (let number = 1; number <= pdf.numPages; number++)
    everything.push(...(await textsOfPage(pdf, number)).map(({ text }) => text))
  for (const words of ['Dig to −2.0 m', 'Soft clay', 'upwards'])
    expect(everything.filter((text) => text === words)).toHaveLength(1)
})

test('fonts are embedded subsets with a map to Unicode (ISO 14289-1, 7.21)', () => {
  const file = new TextDecoder('latin1').decode(written.bytes)
  const names = new Set([...file.matchAll(/\/BaseFont \/([\w+-]+)/g)].map(([, name]) => name))
  expect(names.size).toBe(3)
  for (const name of names) expect(name).toMatch(/^[A-Z]{6}\+DejaVuSansCondensed/)
  expect([...file.matchAll(/\/FontFile2 /g)]).toHaveLength(3)
  expect([...file.matchAll(/\/ToUnicode /g)]).toHaveLength(3)
  expect(written.bytes.length).toBeLessThan(400_000)
})

test('what the font has no glyph for is printed by its name and told', async () => {
  const { bytes, notInFont } = writePdf(madeReport({ blocks: [paragraph('At 漢 the wall')] }), fonts)
  expect(notInFont).toEqual([{ codePoint: 'U+6F22', face: 'regular', text: '漢' }])
  const read = await openPdfBytes(bytes)
  const texts = (await textsOfPage(read, read.numPages)).map(({ text }) => text)
  expect(texts.join(' ')).toContain('At [U+6F22] the wall')
  expect(written.notInFont).toEqual([])
})

test('a table that goes on has its head again, seen but not told twice', async () => {
  const heads: string[] = []
  for (let number = 1; number <= pdf.numPages; number++)
    for (const { text, belongsTo } of await textsOfPage(pdf, number))
      if (text === 'Settlement' && belongsTo) heads.push(belongsTo === 'Artifact' ? 'seen' : 'told')
  expect(heads).toEqual(['told', 'seen'])
})

test('a cell longer than pages is cut between lines and loses no word', async () => {
  const words = Array.from({ length: 1500 }, (_, place) => `word${place}`)
  const long = table(0, { rows: [['A', '1.5', words.join(' ')]] })
  const read = await openPdfBytes(writePdf(madeReport({ blocks: [long] }), fonts).bytes)
  const found: string[] = []
  for (let number = 1; number <= read.numPages; number++)
    for (const { text, belongsTo } of await textsOfPage(read, number))
      if (belongsTo !== 'Artifact') found.push(...(text.match(/word\d+/g) ?? []))
  expect(found).toEqual(words)
  expect(read.numPages).toBeGreaterThan(2)
})

test('a report of nothing but its facts is a page', async () => {
  const { bytes, pages } = writePdf(madeReport({ statement: [], blocks: [] }), fonts)
  expect(pages).toBe(1)
  const texts = (await textsOfPage(await openPdfBytes(bytes), 1)).map(({ text }) => text)
  expect(texts).toContain('Weekly report 7')
  expect(texts).not.toContain('Contents')
})

test('a turned text of a figure is turned on paper', async () => {
  const turned: number[][] = []
  for (let number = 1; number <= pdf.numPages; number++) {
    const { items } = await (await pdf.getPage(number)).getTextContent()
    for (const item of items)
      if ('str' in item && item.str === 'upwards')
        turned.push(item.transform.slice(0, 4).map((one: number) => Math.sign(one) + 0))
  }
  // Its letters run up the page: x along the page's y (ISO 32000-1, 9.4.2).
  expect(turned).toEqual([[0, 1, -1, 0]])
})

test('numbers stand with their points below each other', async () => {
  const settlements: number[] = []
  for (const { text, x } of await textsOfPage(pdf, 2)) {
    const whole = /^−?(\d+)(\.\d+)?$/.exec(text)
    if (!whole || x < 100) continue
    // Breadth of a digit of the font at 8 points: 1172 of 2048 units (its own table).
    const sign = text.startsWith('−') ? 1544 : 0
    settlements.push(x + ((sign + (whole[1] ?? '').length * 1172) / 2048) * 8)
  }
  expect(settlements.length).toBeGreaterThan(15)
  expect(Math.max(...settlements) - Math.min(...settlements)).toBeLessThan(0.3)
})

test('a heading never stands last on a page, a caption never without its table', async () => {
  for (const lines of [32, 33, 34, 35]) {
    const blocks = [
      { block: 'heading', level: 1, text: 'First' } as const,
      ...Array.from({ length: lines }, (_, line) => paragraph(`Line ${line}.`)),
      { block: 'heading', level: 1, text: 'Second' } as const,
      table(5, { caption: 'Five rows.' }),
      history({ tableId: null }),
    ]
    const read = await openPdfBytes(writePdf(madeReport({ blocks }), fonts).bytes)
    for (let number = 2; number <= read.numPages; number++) {
      const content = (await textsOfPage(read, number)).filter(({ belongsTo }) => belongsTo !== 'Artifact')
      const lowest = content.toSorted((one, other) => one.y - other.y)[0]
      expect(lowest?.text, `${lines} lines, page ${number}`).not.toMatch(/Second|Five rows|^2 $/)
    }
  }
}, 30_000)
