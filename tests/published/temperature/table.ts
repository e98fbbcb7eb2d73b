import type { PublishedTable } from '../published-row.ts'
import { temperatureRows } from './rows.ts'

export const temperature: PublishedTable = {
  area: 'temperature',
  rows: temperatureRows,
  computed: {},
}
