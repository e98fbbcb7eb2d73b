import type { PublishedTable } from '../published-row.ts'
import { alignmentsRows } from './rows.ts'

export const alignments: PublishedTable = {
  area: 'alignments',
  rows: alignmentsRows,
  computed: {},
}
