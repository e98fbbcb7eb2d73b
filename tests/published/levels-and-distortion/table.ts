import type { PublishedTable } from '../published-row.ts'
import { distortionComputed } from './distortion.ts'
import { levelsAndDistortionRows } from './rows.ts'

export const levelsAndDistortion: PublishedTable = {
  area: 'levels and distortion',
  rows: levelsAndDistortionRows,
  computed: {
    ...distortionComputed,
  },
}
