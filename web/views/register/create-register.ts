import { responseOf, sinceEpochMs } from '../../derived/alerts/response-state.ts'
import { alertFrameMarkup } from '../../ui/alert-mark.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatShare, formatValue, withUnit } from '../../ui/format-value.ts'
import { kindNames, measureNames } from '../../ui/kind-names.ts'
import type { Palette } from '../../ui/palettes.ts'
import { levelOf, standingName } from '../../ui/state-scale.ts'
import { symbolSvg } from '../../ui/symbol-markup.ts'
import { symbols } from '../../ui/symbols.ts'
import {
  type RegisterColumn,
  type RegisterOrder,
  type RegisterRow,
  registerColumns,
} from './register-rows.ts'
import { rowAfterKey, rowWindow } from './row-window.ts'

export interface RegisterProps {
  /** In the order drawn. */
  readonly rows: readonly RegisterRow[]
  readonly order: RegisterOrder
  /** Series that are selected. */
  readonly selected: ReadonlySet<string>
  readonly levelNames: readonly string[]
  /** Instant that the ages of alerts are counted to. */
  readonly atEpochMs: number
  readonly palette: Palette
}

export interface RegisterCallbacks {
  select(row: RegisterRow): void
  sortBy(column: RegisterColumn): void
}

export interface Register {
  update(props: RegisterProps): void
  destroy(): void
}

const headings: Readonly<Record<RegisterColumn, string>> = {
  point: 'Measuring point',
  measure: 'Measures',
  value: 'Value',
  standing: 'State',
  alert: 'Open alert',
  share: 'Of first level',
  age: 'Age',
  logger: 'Logger',
}

const responseNames = {
  nobody: 'nobody yet',
  'taken-up': 'taken up',
  verified: 'verified',
  closed: 'closed',
} as const

/** The plan's table. Only rows in sight are in the page; arrow keys move through all of them. */
export function createRegister(
  element: HTMLElement,
  first: RegisterProps,
  callbacks: RegisterCallbacks,
): Register {
  let props = first
  let activeId: string | null = null
  let drawn = ''
  const scroller = made('div', 'register-scroller')
  const table = made('table', 'register')
  table.setAttribute('role', 'grid')
  table.setAttribute('aria-label', 'Register of measuring points')
  const head = made('thead', '')
  const body = made('tbody', '')
  table.append(head, body)
  scroller.append(table)
  element.append(scroller)

  const headButtons = drawHead()
  scroller.addEventListener('scroll', () => drawRows(false), { passive: true })
  body.addEventListener('click', (event) => choose(rowAt(event)))
  body.addEventListener('keydown', press)
  body.addEventListener('focusin', (event) => {
    activeId = rowAt(event)?.id ?? activeId
  })
  let sized = false
  const sizes = new ResizeObserver(() => {
    drawRows(true)
    const [selected] = props.selected
    if (!sized && selected !== undefined) showRow(selected)
    sized = true
  })
  sizes.observe(scroller)
  update(first)

  return {
    update,
    destroy() {
      sizes.disconnect()
      scroller.remove()
    },
  }

  function update(next: RegisterProps): void {
    const newlySelected = [...next.selected].find((id) => !props.selected.has(id))
    props = next
    table.setAttribute('aria-rowcount', String(next.rows.length + 1))
    for (const [column, { cell, mark }] of headButtons) {
      const sorted = next.order.column === column
      cell.setAttribute('aria-sort', sorted ? (next.order.descending ? 'descending' : 'ascending') : 'none')
      mark.textContent = sorted ? (next.order.descending ? ' ▼' : ' ▲') : ''
    }
    if (!next.rows.some((row) => row.id === activeId)) activeId = null
    drawRows(true)
    if (newlySelected && !scroller.contains(document.activeElement)) showRow(newlySelected)
  }

  function drawHead() {
    const row = made('tr', '')
    row.setAttribute('aria-rowindex', '1')
    const buttons = new Map<RegisterColumn, { cell: HTMLElement; mark: HTMLElement }>()
    for (const column of registerColumns) {
      const cell = made('th', `register-${column}`)
      cell.setAttribute('scope', 'col')
      const button = made('button', '')
      button.type = 'button'
      const mark = made('span', '')
      mark.setAttribute('aria-hidden', 'true')
      button.append(headings[column], mark)
      button.addEventListener('click', () => callbacks.sortBy(column))
      cell.append(button)
      row.append(cell)
      buttons.set(column, { cell, mark })
    }
    head.append(row)
    return buttons
  }

  function drawRows(anew: boolean): void {
    const height = rowHeightPixels()
    const { first: from, end } = rowWindow(
      props.rows.length,
      height,
      scroller.scrollTop,
      scroller.clientHeight,
    )
    const active = activeRow()
    const key = `${from}-${end}`
    if (!anew && key === drawn) return
    drawn = key
    const hadFocus = body.contains(document.activeElement)
    const rows = props.rows.slice(from, end).map((row, place) => drawRow(row, from + place, active))
    if (rows.length === 0) rows.push(emptyRow())
    body.replaceChildren(spacer(from * height), ...rows, spacer((props.rows.length - end) * height))
    if (hadFocus) body.querySelector<HTMLElement>('[tabindex="0"]')?.focus({ preventScroll: true })
  }

  function drawRow(row: RegisterRow, place: number, active: number): HTMLElement {
    const line = made('tr', '')
    line.dataset.row = String(place)
    line.tabIndex = place === active ? 0 : -1
    line.setAttribute('aria-rowindex', String(place + 2))
    line.setAttribute('aria-selected', String(props.selected.has(row.id)))
    const late = row.silent
    const value = formatValue(row.value, row.decimals)
    line.append(
      pointCell(row),
      textCell('measure', measureNames[row.measure]),
      textCell('value', row.value === null ? '–' : withUnit(value, row.unit), late),
      textCell('standing', stateText(row, props.levelNames), false, levelOf(row.standing) > 0),
      alertCell(row),
      textCell('share', late ? '' : formatShare(row.share)),
      textCell('age', row.ageMs === null ? 'no reading' : formatAge(row.ageMs), false, late),
      textCell('logger', row.logger),
    )
    return line
  }

  function alertCell({ alerts }: RegisterRow): HTMLElement {
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
      frame.innerHTML = `<svg width="20" height="20" viewBox="0 0 48 48" aria-hidden="true">${alertFrameMarkup(response, props.palette)}</svg>`
      cell.append(frame)
    }
    const more = (alerts?.length ?? 0) > 1 ? `, +${(alerts?.length ?? 0) - 1}` : ''
    cell.append(
      `${first.alert} ${responseNames[response]}, ${formatAge(props.atEpochMs - sinceEpochMs(first))}${more}`,
    )
    return cell
  }

  function pointCell(row: RegisterRow): HTMLElement {
    const cell = made('th', 'register-point')
    cell.setAttribute('scope', 'row')
    const symbol = made('span', 'symbol')
    const state = {
      standing: row.standing,
      share: row.share,
      partLate: row.silent,
      cameLater: row.later !== '',
    }
    const levels = Math.max(1, props.levelNames.length)
    // Our own markup of numbers and palette colours; names go in as text below.
    symbol.innerHTML = symbolSvg(symbols[row.kind], { ...state, levels }, props.palette, 32)
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

  function press(event: KeyboardEvent): void {
    const active = activeRow()
    if (event.key === 'Enter' || event.key === ' ') choose(props.rows[active])
    else {
      const pageRows = Math.max(1, Math.floor(scroller.clientHeight / rowHeightPixels()) - 2)
      const next = rowAfterKey(event.key, active, props.rows.length, pageRows)
      if (next === null) return
      goTo(next)
    }
    event.preventDefault()
  }

  function goTo(place: number): void {
    activeId = props.rows[place]?.id ?? null
    scrollTo(place)
    drawRows(true)
    body.querySelector<HTMLElement>(`[data-row="${place}"]`)?.focus({ preventScroll: true })
  }

  function showRow(id: string): void {
    const place = props.rows.findIndex((row) => row.id === id)
    if (place < 0) return
    activeId = id
    scrollTo(place)
    drawRows(true)
  }

  function scrollTo(place: number): void {
    const height = rowHeightPixels()
    const top = place * height
    const room = scroller.clientHeight - head.offsetHeight - height
    if (top < scroller.scrollTop) scroller.scrollTop = top
    else if (top > scroller.scrollTop + room) scroller.scrollTop = top - room
  }

  function choose(row: RegisterRow | undefined): void {
    if (!row) return
    activeId = row.id
    callbacks.select(row)
  }

  function activeRow(): number {
    const place = props.rows.findIndex((row) => row.id === activeId)
    if (place >= 0) return place
    return Math.max(
      0,
      props.rows.findIndex((row) => props.selected.has(row.id)),
    )
  }

  function rowAt(event: Event): RegisterRow | undefined {
    const line = (event.target as HTMLElement).closest<HTMLElement>('tr[data-row]')
    return line ? props.rows[Number(line.dataset.row)] : undefined
  }

  function rowHeightPixels(): number {
    const height = Number.parseFloat(getComputedStyle(table).getPropertyValue('--row-height'))
    return Number.isFinite(height) && height > 0 ? height : 44
  }
}

function stateText(row: RegisterRow, levelNames: readonly string[]): string {
  const name = standingName(row.standing, levelNames)
  const standing = row.silent && row.standing !== 'late' ? `${name}, no current data` : name
  return [standing, row.later, row.contradicted, ...row.marks].filter((part) => part !== '').join('; ')
}

function textCell(column: RegisterColumn, text: string, faint = false, strong = false): HTMLElement {
  const cell = made('td', `register-${column}${faint ? ' faint' : ''}${strong ? ' strong' : ''}`)
  cell.textContent = text
  return cell
}

function spacer(heightPixels: number): HTMLElement {
  const row = made('tr', 'register-spacer')
  row.setAttribute('aria-hidden', 'true')
  row.style.height = `${heightPixels}px`
  return row
}

function emptyRow(): HTMLElement {
  const row = made('tr', '')
  const cell = made('td', 'register-empty')
  cell.colSpan = registerColumns.length
  cell.textContent = 'No measuring point passes these filters.'
  row.append(cell)
  return row
}

function made<K extends keyof HTMLElementTagNameMap>(tag: K, className: string): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag)
  if (className !== '') element.className = className
  return element
}
