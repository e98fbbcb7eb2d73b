import type { PublishedTable } from '../published-row.ts'
import { vibratingWireRows } from './rows.ts'

export const vibratingWire: PublishedTable = {
  area: 'vibrating wire',
  rows: vibratingWireRows,
  computed: {},
}
