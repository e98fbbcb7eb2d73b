import type { PublishedTable } from '../published-row.ts'
import { levellingRows } from './rows.ts'

export const levelling: PublishedTable = {
  area: 'levelling',
  rows: levellingRows,
  computed: {},
}
