import type { TableRow, Words } from '../document.ts'
import { beforePoint, plainWords, runsOf } from '../keep-units.ts'
import type { NumberedTable } from '../numbered.ts'
import { escapeMarkup } from './escape.ts'

export const markupOf = (words: Words): string =>
  runsOf(words)
    .map(({ text, strong }) => (strong ? `<strong>${escapeMarkup(text)}</strong>` : escapeMarkup(text)))
    .join('')

/** Letters of a cell that is never broken: a name, an instant, a number. */
const longestUnbroken = 20

/** A table with its caption, headers that say what they head, and numbers with their points below each other. */
export function writeTable(table: NumberedTable): string {
  const headers = table.columns.map(({ rowHeader }) => rowHeader === true)
  if (!headers.includes(true)) headers[0] = true
  const digits = table.columns.map(({ align }, place) =>
    align === 'decimal' ? mostDigits(table.rows, place) : null,
  )
  const head = table.columns.map(
    ({ head: name, unit, align }) =>
      `<th scope="col"${align === 'decimal' || align === 'centre' ? ' class="middle"' : ''}>${escapeMarkup(name)}${unit ? `<br/><span class="unit">${escapeMarkup(unit)}</span>` : ''}</th>`,
  )
  const rows = table.rows.map((row) => {
    if ('over' in row)
      return `<tr class="over"><th scope="rowgroup" colspan="${table.columns.length}">${escapeMarkup(row.over)}</th></tr>`
    const cells = table.columns.map((column, place) => {
      const words = row[place] ?? ''
      const tag = headers[place] ? 'th scope="row"' : 'td'
      const middle = column.align === 'decimal' || column.align === 'centre'
      const classes = [middle ? 'middle' : '', plainWords(words).length <= longestUnbroken ? 'short' : '']
      const named = classes.filter(Boolean).join(' ')
      const own = named === '' ? '' : ` class="${named}"`
      return `<${tag}${own}>${aligned(words, digits[place] ?? null)}</${headers[place] ? 'th' : 'td'}>`
    })
    return `<tr>${cells.join('')}</tr>`
  })
  const notes = (table.notes ?? []).map((note) => `<p class="note">${escapeMarkup(note)}</p>`)
  return [
    // A table that is too broad for a small screen is scrolled, by keyboard too.
    `<div class="table" id="${table.anchor}" role="region" tabindex="0" aria-label="Table ${table.number}">`,
    `<table><caption><strong>Table ${table.number}.</strong> ${escapeMarkup(table.caption)}</caption>`,
    `<thead><tr>${head.join('')}</tr></thead>`,
    `<tbody>${rows.join('\n')}</tbody></table>`,
    ...notes,
    '</div>',
  ].join('\n')
}

interface Digits {
  readonly before: number
  readonly after: number
}

function mostDigits(rows: readonly TableRow[], place: number): Digits {
  let [before, after] = [0, 0]
  for (const row of rows) {
    if ('over' in row) continue
    const text = plainWords(row[place] ?? '')
    const whole = beforePoint(text)
    if (whole === null) continue
    before = Math.max(before, whole.length)
    after = Math.max(after, text.length - whole.length)
  }
  return { before: Math.min(before, 24), after: Math.min(after, 24) }
}

/** A number in two parts, each as broad as the broadest of its column: their point is in one line. */
function aligned(words: Words, digits: Digits | null): string {
  const text = plainWords(words)
  const whole = digits && beforePoint(text)
  if (!whole || typeof words !== 'string') return markupOf(words)
  return `<span class="whole n${digits.before}">${escapeMarkup(whole)}</span><span class="part n${digits.after}">${escapeMarkup(text.slice(whole.length))}</span>`
}
