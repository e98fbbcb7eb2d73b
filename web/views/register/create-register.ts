import { made } from './made-element.ts'
import { createRegisterHead } from './register-head.ts'
import type { RegisterCallbacks, RegisterProps } from './register-props.ts'
import { registerRow } from './register-row.ts'
import type { RegisterRow } from './register-rows.ts'
import { rowAfterKey, rowWindow } from './row-window.ts'
import { emptyRow, spacer } from './rows-of-no-point.ts'

export interface Register {
  update(props: RegisterProps): void
  destroy(): void
}

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

  const heading = createRegisterHead(head, callbacks.sortBy)
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
    heading.showOrder(next.order)
    if (!next.rows.some((row) => row.id === activeId)) activeId = null
    drawRows(true)
    if (newlySelected && !scroller.contains(document.activeElement)) showRow(newlySelected)
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
    const rows = props.rows
      .slice(from, end)
      .map((row, place) => registerRow(row, props, from + place, from + place === active))
    if (rows.length === 0) rows.push(emptyRow())
    body.replaceChildren(spacer(from * height), ...rows, spacer((props.rows.length - end) * height))
    if (hadFocus) body.querySelector<HTMLElement>('[tabindex="0"]')?.focus({ preventScroll: true })
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
