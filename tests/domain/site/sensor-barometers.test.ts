import { expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'sensor,version,validFrom,barometer,author,reason'
const read = (...rows: readonly string[]) =>
  readSite(smallSite().set('sensor-barometers.csv', [headings, ...rows].join('\n')))
const faults = (...rows: readonly string[]) => {
  const outcome = read(...rows)
  return outcome.ok ? [] : outcome.issues
}
const of = (sensor: string, version: number, barometer = 'BA-1/barometric-pressure') =>
  `${sensor},${version},2027-03-01T00:00:00Z,${barometer},A. Reed,put up nearer`

test('dated barometers are read, and written out again; a folder may go without', () => {
  const outcome = read(of('PZ-1A/pore-pressure', 1), of('PZ-1A/pore-pressure', 2))
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  expect(outcome.value.sensorBarometers).toMatchObject([
    { version: 1, validFrom: Date.UTC(2027, 2, 1), barometer: 'BA-1/barometric-pressure' },
    { version: 2 },
  ])
  expect(readSite(writeSite(outcome.value))).toEqual(outcome)
  const without = readSite(smallSite())
  if (!without.ok) throw new Error(without.issues[0]?.message)
  expect(without.value.sensorBarometers).toEqual([])
  expect(writeSite(without.value).has('sensor-barometers.csv')).toBe(false)
})

test('what is named measures air pressure, what is corrected does not, and a version stands once', () => {
  expect(faults(of('PZ-1A/pore-pressure', 1, 'PZ-1A/temperature'))).toMatchObject([
    { code: 'companion-measure', file: 'sensor-barometers.csv', line: 2, column: 'barometer' },
  ])
  expect(faults(of('BA-1/barometric-pressure', 1))).toMatchObject([
    { code: 'barometer-of-barometer', line: 2, column: 'sensor', value: 'BA-1/barometric-pressure' },
  ])
  expect(faults(of('PZ-1A/pore-pressure', 1, 'BA-9/barometric-pressure')).map(({ code }) => code)).toEqual([
    'reference-broken',
  ])
  expect(faults(of('PZ-1A/pore-pressure', 1), of('PZ-1A/pore-pressure', 1))).toHaveLength(1)
})
