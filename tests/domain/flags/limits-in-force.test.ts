import { expect, it } from 'vitest'
import { checksOfSensors } from '#domain/flags/limits-in-force.ts'
import { readSite } from '#domain/site/read-site.ts'
import { smallSite } from '../site/small-site.ts'

const heading = 'id,series,measure,check,suspectBelow,suspectAbove,failBelow,failAbove,against,reason,author'
const withLimits = (...rows: string[]) =>
  readSite(smallSite().set('check-limits.csv', `${[heading, ...rows].join('\n')}\n`))

it('takes range and clock from physics, and narrows but never widens the range', () => {
  const site = withLimits('CL-1,PZ-1A/pore-pressure,,range,-5,150,-20,900,,design,A. Reed')
  if (!site.ok) throw new Error(site.issues[0]?.message)
  const checks = checksOfSensors(site.value.sensors, site.value.checkLimits)
  const own = checks.find(({ series }) => series === 'PZ-1A/pore-pressure')
  expect(own?.limits.range).toEqual({ suspectBelow: -5, suspectAbove: 150, failBelow: -20, failAbove: 350 })
  expect(own?.limits.clock?.suspectBelow).toBe(-120)
  expect(own?.limits.spike).toBeUndefined()
})

it("holds limits from the instant they begin, a sensor's own before those of its measure", () => {
  const dated = `${heading},validFrom`
  const site = readSite(
    smallSite().set(
      'check-limits.csv',
      `${[
        dated,
        'CL-1,,pore-pressure,spike,,2,,,,design,A. Reed,',
        'CL-2,,pore-pressure,spike,,3,,,,scatter,A. Reed,2027-03-01T00:00:00Z',
        'CL-3,PZ-1A/pore-pressure,,spike,,5,,,,tide,A. Reed,2027-04-01T00:00:00Z',
      ].join('\n')}\n`,
    ),
  )
  if (!site.ok) throw new Error(site.issues[0]?.message)
  const own = checksOfSensors(site.value.sensors, site.value.checkLimits).filter(
    ({ series }) => series === 'PZ-1A/pore-pressure',
  )
  const [march, april] = [Date.UTC(2027, 2, 1), Date.UTC(2027, 3, 1)]
  expect(
    own.map((one) => [
      one.fromEpochMs,
      one.untilEpochMs,
      one.limits.spike?.suspectAbove,
      one.records.spike?.id,
    ]),
  ).toEqual([
    [null, march, 2, 'CL-1'],
    [march, april, 3, 'CL-2'],
    [april, null, 5, 'CL-3'],
  ])
})

it.each([
  ['CL-1,,,spike,,2,,,,design,A. Reed', 'series-or-measure'],
  ['CL-1,PZ-9/pore-pressure,,spike,,2,,,,design,A. Reed', 'series-unknown'],
  ['CL-1,,pore-pressure,spike,,,,,,design,A. Reed', 'limit-missing'],
  ['CL-1,,pore-pressure,spike,1,2,,,,design,A. Reed', 'limit-without-meaning'],
  ['CL-1,,pore-pressure,stuck-value,,48,,,,design,A. Reed', 'out-of-range'],
  ['CL-1,,pore-pressure,spike,,2,,1,,design,A. Reed', 'limit-order'],
  ['CL-1,PZ-1A/pore-pressure,,duplicate,,2,,,,design,A. Reed', 'against-expected'],
  ['CL-1,PZ-1A/pore-pressure,,duplicate,,2,,,ST-1A/force,design,A. Reed', 'against-unlike'],
])('refuses %s: %s', (row, code) => {
  const site = withLimits(row)
  expect(site.ok ? [] : site.issues.map((issue) => [issue.file, issue.line, issue.code])).toEqual([
    ['check-limits.csv', 2, code],
  ])
})
