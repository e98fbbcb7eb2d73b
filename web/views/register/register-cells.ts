import { responseOf, sinceEpochMs } from '../../derived/alerts/response-state.ts'
import { alertFrameMarkup } from '../../ui/alert-mark.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { kindNames } from '../../ui/kind-names.ts'
import { symbolSvg } from '../../ui/symbol-markup.ts'
import { symbols } from '../../ui/symbols.ts'
import { made } from './made-element.ts'
import type { RegisterProps } from './register-props.ts'
import type { RegisterColumn, RegisterRow } from './register-rows.ts'

const responseNames = {
  nobody: 'nobody yet',
  'taken-up': 'taken up',
  verified: 'verified',
  closed: 'closed',
} as const

/** The point with its symbol, and a mark where its silence must be noticed. */
export function pointCell(row: RegisterRow, { levelNames, palette }: RegisterProps): HTMLElement {
  const cell = made('th', 'register-point')
  cell.setAttribute('scope', 'row')
  const symbol = made('span', 'symbol')
  const state = {
    standing: row.standing,
    share: row.share,
    partLate: row.silent,
    cameLater: row.later !== '',
  }
  const levels = Math.max(1, levelNames.length)
  // Our own markup of numbers and palette colours; names go in as text below.
  symbol.innerHTML = symbolSvg(symbols[row.kind], { ...state, levels }, palette, 32)
  symbol.title = kindNames[row.kind]
  cell.append(symbol, row.point)
  if (row.critical) {
    const mark = made('abbr', 'critical')
    mark.title = 'Critical: its silence must itself be noticed'
    mark.textContent = '!'
    cell.append(mark)
  }
  return cell
}

/** The first of the open alerts, who has it, since when, and how many there are more. */
export function alertCell({ alerts }: RegisterRow, { palette, atEpochMs }: RegisterProps): HTMLElement {
  const [first] = alerts ?? []
  const cell = textCell('alert', '', alerts === null, first !== undefined && responseOf(first) === 'nobody')
  if (!first) {
    cell.textContent = alerts === null ? 'not known' : ''
    return cell
  }
  const response = responseOf(first)
  if (response !== 'closed') {
    const frame = made('span', 'symbol')
    // Our own markup of numbers and palette colours.
    frame.innerHTML = `<svg width="20" height="20" viewBox="0 0 48 48" aria-hidden="true">${alertFrameMarkup(response, palette)}</svg>`
    cell.append(frame)
  }
  const more = (alerts?.length ?? 0) > 1 ? `, +${(alerts?.length ?? 0) - 1}` : ''
  cell.append(
    `${first.alert} ${responseNames[response]}, ${formatAge(atEpochMs - sinceEpochMs(first))}${more}`,
  )
  return cell
}

/** A cell of words alone. */
export function textCell(column: RegisterColumn, text: string, faint = false, strong = false): HTMLElement {
  const cell = made('td', `register-${column}${faint ? ' faint' : ''}${strong ? ' strong' : ''}`)
  cell.textContent = text
  return cell
}
