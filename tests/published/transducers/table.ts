import type { PublishedTable } from '../published-row.ts'
import { transducersRows } from './rows.ts'

export const transducers: PublishedTable = {
  area: 'transducers',
  rows: transducersRows,
  computed: {},
}
