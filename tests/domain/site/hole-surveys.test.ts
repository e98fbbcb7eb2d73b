import { expect, test } from 'vitest'
import { positionAtDepth } from '#domain/geometry/hole.ts'
import { surveyedHole } from '#domain/geometry/surveyed-hole.ts'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'location,depthMetres,dipDegrees,azimuthDegrees,surveyedAt,surveyedBy'
const by = '2027-01-21T09:00:00Z,A. Reed'
const read = (...rows: string[]) =>
  readSite(smallSite().set('hole-surveys.csv', [headings, ...rows.map((row) => `${row},${by}`)].join('\n')))

test('a surveyed hole is read, placed along its survey, and written out again', () => {
  const outcome = read('BH-1,10,88,90', 'BH-1,20,86,90')
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  const location = outcome.value.locations.find(({ id }) => id === 'BH-1')
  if (!location) throw new Error('no hole')
  const hole = surveyedHole(location, outcome.value.holeSurveys)
  const foot = positionAtDepth(hole, 22)
  // 1° on average over 10 m, 3° over 10 m, 4° over 2 m.
  expect(foot.eastingMetres - 500030).toBeCloseTo(0.8375, 3)
  expect(foot.northingMetres).toBeCloseTo(309990, 9)
  expect(readSite(writeSite(outcome.value))).toEqual(outcome)
})

test.each([
  [['BH-1,10,95,0'], { code: 'out-of-range', line: 2, column: 'dipDegrees', value: '95' }, /95/],
  [
    ['BH-1,10,89,0', 'BH-1,5,89,0'],
    { code: 'depth-not-increasing', line: 3, column: 'depthMetres', value: '5' },
    /5 m comes after 10 m/,
  ],
  [['BH-1,23,89,0'], { code: 'depth-beyond-hole', line: 2, column: 'depthMetres' }, /22 m long/],
  [['BH-1,10,2,0'], { code: 'dogleg-too-great', line: 2, column: 'dipDegrees' }, /90 less an inclination/],
  [['SP-1,0,90,0'], { code: 'survey-of-no-hole', line: 2, column: 'location' }, /surface, not a hole/],
  [['BH-9,0,90,0'], { code: 'reference-broken', line: 2, column: 'location' }, /BH-9/],
  [['BH-1,5,90,0', 'BH-1,5,90,0'], { code: 'key-repeated', line: 3 }, /line 2/],
])('refuses %j', (rows, expected, says) => {
  const outcome = read(...rows)
  const issues = outcome.ok ? [] : outcome.issues
  expect(issues).toContainEqual(expect.objectContaining({ file: 'hole-surveys.csv', ...expected }))
  expect(issues.find(({ code }) => code === expected.code)?.message).toMatch(says)
})
