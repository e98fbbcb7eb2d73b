import { describe, expect, test } from 'vitest'
import { paragraph } from '../../../../web/report/document.ts'
import { escapeMarkup } from '../../../../web/report/html/escape.ts'
import { writeHtml } from '../../../../web/report/html/write-html.ts'
import { madeReport } from '../made-report.ts'

const html = writeHtml(madeReport())
/** As XML: what is not well formed makes a parser error. */
const asXml = (text: string) =>
  new DOMParser().parseFromString(text.replace('<!DOCTYPE html>\n', ''), 'application/xhtml+xml')
const page = new DOMParser().parseFromString(html, 'text/html')
const all = (selector: string) => [...page.querySelectorAll(selector)]

test('the same report is the same page, well formed as XML', () => {
  expect(writeHtml(madeReport())).toBe(html)
  expect(asXml(html).querySelector('parsererror')).toBeNull()
  expect(asXml(`${html}<p>`).querySelector('parsererror')).not.toBeNull()
})

test('it needs nothing beside itself: no script, no file, no style attribute', () => {
  expect(all('script, link, img, iframe, object, [style], [onclick]')).toEqual([])
  expect(html).not.toMatch(/url\((?!#)|@import|https?:/)
})

test('landmarks, one first heading, and headings without a gap (WCAG 2.2, 1.3.1)', () => {
  expect(page.documentElement.lang).toBe('en-GB')
  for (const landmark of ['header', 'main', 'nav', 'footer']) expect(all(landmark)).toHaveLength(1)
  const levels = all('h1, h2, h3, h4').map(({ tagName }) => Number(tagName[1]))
  expect(levels.filter((level) => level === 1)).toHaveLength(1)
  for (const [place, level] of levels.entries())
    expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1)
})

test('the first thing reached leads to the statement, which stands first (WCAG 2.2, 2.4.1)', () => {
  const skip = all('a')[0]
  expect(skip?.getAttribute('href')).toBe('#statement')
  expect(page.querySelector('main')?.firstElementChild?.id).toBe('statement')
})

test('every link and every name that is pointed to is there', () => {
  for (const link of all('a'))
    expect(page.getElementById((link.getAttribute('href') ?? '').slice(1))).not.toBeNull()
  for (const drawing of all('svg')) {
    const names = (drawing.getAttribute('aria-labelledby') ?? '').split(' ')
    expect(names).toHaveLength(2)
    for (const name of names) expect(page.getElementById(name)?.textContent).not.toBe('')
  }
  const ids = all('[id]').map(({ id }) => id)
  expect(new Set(ids).size).toBe(ids.length)
})

describe('tables', () => {
  test('tell what each header heads', () => {
    expect(all('thead th').every((cell) => cell.getAttribute('scope') === 'col')).toBe(true)
    expect(all('tbody tr:not(.over) th').every((cell) => cell.getAttribute('scope') === 'row')).toBe(true)
    expect(all('tbody tr:not(.over)').every((row) => row.querySelectorAll('th').length === 1)).toBe(true)
    expect(all('.over th')[0]?.getAttribute('colspan')).toBe('3')
  })
  test('say units in their heads and keep numbers whole', () => {
    expect(all('thead th')[1]?.textContent).toBe('Settlementmm')
    expect(all('tbody tr:not(.over) td').map(({ textContent }) => textContent)).toContain('−1.4')
  })
})

test('words from records are text, never markup', () => {
  const bad = `</style><script>alert(1)</script>'"&\u0007`
  const made = madeReport()
  const text = writeHtml({
    ...made,
    title: bad,
    facts: { ...made.facts, site: bad, watermark: bad },
    statement: [paragraph(bad)],
  })
  expect(text).not.toContain('<script')
  expect(text.match(/<\/style>/g)).toHaveLength(1)
  expect(asXml(text).querySelector('parsererror')).toBeNull()
  expect(asXml(text).querySelector('#statement p')?.textContent).toBe(
    `</style><script>alert(1)</script>'"&[U+0007]`,
  )
})

test('a lone half of a surrogate pair is replaced, a whole pair kept', () => {
  expect(escapeMarkup('a\ud800b 😀')).toBe('a\ufffdb 😀')
})
