import type { PublishedTable } from '../published-row.ts'
import { tiltAndCracksRows } from './rows.ts'

export const tiltAndCracks: PublishedTable = {
  area: 'tilt and cracks',
  rows: tiltAndCracksRows,
  computed: {},
}
