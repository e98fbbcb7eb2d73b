import type { PublishedTable } from '../published-row.ts'
import { levelsAndDistortionRows } from './rows.ts'

export const levelsAndDistortion: PublishedTable = {
  area: 'levels and distortion',
  rows: levelsAndDistortionRows,
  computed: {},
}
