import type { PublishedTable } from '../published-row.ts'
import { coordinatesRows } from './rows.ts'

export const coordinates: PublishedTable = {
  area: 'coordinates',
  rows: coordinatesRows,
  computed: {},
}
