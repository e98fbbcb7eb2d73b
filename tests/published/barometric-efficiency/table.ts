import type { PublishedTable } from '../published-row.ts'
import { barometricEfficiencyRows } from './rows.ts'

export const barometricEfficiency: PublishedTable = {
  area: 'barometric efficiency',
  rows: barometricEfficiencyRows,
  computed: {},
}
