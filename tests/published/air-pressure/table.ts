import type { PublishedTable } from '../published-row.ts'
import { airPressureRows } from './rows.ts'

export const airPressure: PublishedTable = {
  area: 'air pressure',
  rows: airPressureRows,
  computed: {},
}
