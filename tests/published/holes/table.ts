import type { PublishedTable } from '../published-row.ts'
import { holesRows } from './rows.ts'

export const holes: PublishedTable = {
  area: 'holes',
  rows: holesRows,
  computed: {},
}
