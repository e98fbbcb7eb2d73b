import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { WellAndAir } from '#domain/ground/barometric-efficiency.ts'

/** 240 hours of a well and its barometer with a known efficiency of 0.55, made for these rows. */
export function wellAndAir(): WellAndAir {
  const text = readFileSync(join(import.meta.dirname, 'baro-efficiency.csv'), 'utf8')
  const rows = text
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number))
  const column = (at: number) => rows.map((row) => row[at] ?? Number.NaN)
  return { hours: column(0), airPressureKpa: column(1), levelMetres: column(2) }
}
