import { made } from './made-element.ts'
import { type RegisterColumn, type RegisterOrder, registerColumns } from './register-rows.ts'

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

/** Headings that sort when pressed. */
export function createRegisterHead(head: HTMLElement, sortBy: (column: RegisterColumn) => void) {
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
    button.addEventListener('click', () => sortBy(column))
    cell.append(button)
    row.append(cell)
    buttons.set(column, { cell, mark })
  }
  head.append(row)
  return {
    /** Marks the column sorted by. */
    showOrder(order: RegisterOrder): void {
      for (const [column, { cell, mark }] of buttons) {
        const sorted = order.column === column
        cell.setAttribute('aria-sort', sorted ? (order.descending ? 'descending' : 'ascending') : 'none')
        mark.textContent = sorted ? (order.descending ? ' ▼' : ' ▲') : ''
      }
    },
  }
}
