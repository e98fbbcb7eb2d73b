import type { PublishedTable } from '../published-row.ts'
import { inclinometersRows } from './rows.ts'

export const inclinometers: PublishedTable = {
  area: 'inclinometers',
  rows: inclinometersRows,
  computed: {},
}
