import { expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'id,series,follows,at,offset,standardUncertainty,author,reason'
const end = '-0.4,0.2,A. Reed,both read for a day'
const second =
  'PZ-1B/pore-pressure,PZ-1A,pore-pressure,7002,us,kPa,-50,350,2,PZ-1A/temperature,BA-1/barometric-pressure,60,180'

/** The small site with a second piezometer that was wired on 1 April. */
function read(...rows: readonly string[]) {
  const files = smallSite().set('joins.csv', [headings, ...rows].join('\n'))
  const added: Readonly<Record<string, string>> = {
    'points.csv': 'PZ-1B,PZ-1,5.6,,-0.5,-1.5,soft clay,,',
    'sensors.csv': second.replace(',PZ-1A,', ',PZ-1B,'),
    'wiring.csv': 'LG-1,4,PZ-1B/pore-pressure,2027-04-01T00:00:00Z,,in place of PZ-1A',
  }
  for (const [file, row] of Object.entries(added)) files.set(file, `${files.get(file)}${row}\n`)
  return readSite(files)
}
const issues = (...rows: readonly string[]) => {
  const outcome = read(...rows)
  return outcome.ok ? [] : outcome.issues
}

test('a join is read, and written out again', () => {
  const outcome = read(`J-1,PZ-1B/pore-pressure,PZ-1A/pore-pressure,2027-04-01T00:00:00Z,${end}`)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  expect(outcome.value.joins).toMatchObject([{ id: 'J-1', offset: -0.4, standardUncertainty: 0.2 }])
  expect(readSite(writeSite(outcome.value))).toEqual(outcome)
})

test.each([
  ['PZ-1C/pore-pressure,PZ-1A/pore-pressure,2027-04-01T00:00:00Z', 'series-unknown', 'series'],
  ['PZ-1B/pore-pressure,PZ-1/pore-pressure,2027-04-01T00:00:00Z', 'series-unknown', 'follows'],
  ['PZ-1B/pore-pressure,PZ-1B/pore-pressure,2027-04-01T00:00:00Z', 'join-to-itself', 'follows'],
  ['PZ-1B/pore-pressure,PZ-1A/temperature,2027-04-01T00:00:00Z', 'join-of-units', 'follows'],
  ['PZ-1B/pore-pressure,PZ-1A/pore-pressure,2027-03-31T23:59:59Z', 'join-before-series', 'at'],
])('%s is refused as %s', (start, code, column) => {
  expect(issues(`J-1,${start},${end}`)).toMatchObject([{ code, file: 'joins.csv', line: 2, column }])
})

test('a series that carries on from two, or from itself through another, is refused', () => {
  const forth = `PZ-1B/pore-pressure,PZ-1A/pore-pressure,2027-04-01T00:00:00Z,${end}`
  const back = `PZ-1A/pore-pressure,PZ-1B/pore-pressure,2027-04-01T00:00:00Z,${end}`
  expect(issues(`J-1,${forth}`, `J-2,${forth}`)).toMatchObject([
    { code: 'join-repeated', line: 3, column: 'series' },
  ])
  expect(issues(`J-1,${forth}`, `J-2,${back}`)).toMatchObject([
    { code: 'join-in-ring', line: 2 },
    { code: 'join-in-ring', line: 3 },
  ])
})
