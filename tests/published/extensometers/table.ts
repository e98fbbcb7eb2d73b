import type { PublishedTable } from '../published-row.ts'
import { extensometersRows } from './rows.ts'

export const extensometers: PublishedTable = {
  area: 'extensometers',
  rows: extensometersRows,
  computed: {},
}
