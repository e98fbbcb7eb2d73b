import type { PublishedTable } from '../published-row.ts'
import { baselineAndUncertaintyRows } from './rows.ts'

export const baselineAndUncertainty: PublishedTable = {
  area: 'baseline and uncertainty',
  rows: baselineAndUncertaintyRows,
  computed: {},
}
