import { made } from './made-element.ts'
import { registerColumns } from './register-rows.ts'

/** Keeps the place of rows that are out of sight. */
export function spacer(heightPixels: number): HTMLElement {
  const row = made('tr', 'register-spacer')
  row.setAttribute('aria-hidden', 'true')
  row.style.height = `${heightPixels}px`
  return row
}

/** Stands where no row passes the filters. */
export function emptyRow(): HTMLElement {
  const row = made('tr', '')
  const cell = made('td', 'register-empty')
  cell.colSpan = registerColumns.length
  cell.textContent = 'No measuring point passes these filters.'
  row.append(cell)
  return row
}
