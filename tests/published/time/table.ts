import type { PublishedTable } from '../published-row.ts'
import { timeRows } from './rows.ts'

export const time: PublishedTable = {
  area: 'time',
  rows: timeRows,
  computed: {},
}
