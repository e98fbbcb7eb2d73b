import type { PublishedTable } from '../published-row.ts'
import { oddReadingsRows } from './rows.ts'

export const oddReadings: PublishedTable = {
  area: 'odd readings',
  rows: oddReadingsRows,
  computed: {},
}
