import type { PublishedTable } from '../published-row.ts'
import { unitsRows } from './rows.ts'

export const units: PublishedTable = {
  area: 'units',
  rows: unitsRows,
  computed: {},
}
