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
