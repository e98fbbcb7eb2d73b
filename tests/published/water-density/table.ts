import type { PublishedTable } from '../published-row.ts'
import { waterDensityRows } from './rows.ts'

export const waterDensity: PublishedTable = {
  area: 'water density',
  rows: waterDensityRows,
  computed: {},
}
