import type { PublishedTable } from '../published-row.ts'
import { hydrostaticsRows } from './rows.ts'

export const hydrostatics: PublishedTable = {
  area: 'hydrostatics',
  rows: hydrostaticsRows,
  computed: {},
}
