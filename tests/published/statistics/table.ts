import type { PublishedTable } from '../published-row.ts'
import { statisticsRows } from './rows.ts'

export const statistics: PublishedTable = {
  area: 'statistics',
  rows: statisticsRows,
  computed: {},
}
