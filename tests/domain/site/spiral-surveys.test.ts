import { describe, expect, test } from 'vitest'
import { grooveSentence, grooveSpiral, grooveTurnDegrees } from '#domain/geometry/groove-spiral.ts'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'location,depthMetres,spiralDegrees,surveyedAt,surveyedBy'
const by = '2027-01-21T09:00:00Z,A. Reed'
const read = (...rows: string[]) =>
  readSite(smallSite().set('spiral-surveys.csv', [headings, ...rows.map((row) => `${row},${by}`)].join('\n')))

describe('a spiral survey of a casing', () => {
  test('is read, written out again, and turns the grooves between its stations', () => {
    const outcome = read('BH-1,20,-5', 'BH-1,10,4')
    if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
    const spiral = grooveSpiral('BH-1', outcome.value.spiralSurveys)
    expect([0, 5, 10, 15, 20, 22].map((depth) => grooveTurnDegrees(spiral, depth))).toEqual([
      0, 2, 4, -0.5, -5, -5,
    ])
    expect(spiral && grooveSentence(spiral)).toMatch(
      /^Groove spiral surveyed on 2027-01-21, up to 5° counter-clockwise at 20 m\./,
    )
    expect(readSite(writeSite(outcome.value))).toEqual(outcome)
  })

  test('is followed by a newer one, whole; a casing without one has straight grooves', () => {
    const row = (depthMetres: number, spiralDegrees: number, surveyedAt: number) => ({
      location: 'BH-1',
      depthMetres,
      spiralDegrees,
      surveyedAt,
      surveyedBy: 'A. Reed',
    })
    const surveys = [row(10, 8, 2), row(20, 9, 1), row(10, 3, 1)]
    expect(grooveSpiral('BH-1', surveys)).toEqual({
      surveyedAtEpochMs: 2,
      stations: [{ depthMetres: 10, spiralDegrees: 8 }],
    })
    expect(grooveSpiral('BH-2', surveys)).toBeNull()
    expect(grooveTurnDegrees(null, 5)).toBe(0)
  })

  test.each([
    [['SP-1,0,0'], { code: 'survey-of-no-hole', line: 2, column: 'location' }, /surface, not a hole/],
    [['BH-1,23,1'], { code: 'depth-beyond-hole', line: 2, column: 'depthMetres' }, /22 m long/],
    [['BH-1,0,1'], { code: 'spiral-not-from-top', line: 2, value: '1' }, /Take that off every station/],
    [['BH-1,20,181', 'BH-1,10,2'], { code: 'spiral-too-great', line: 2 }, /179° between 10 m and 20 m/],
    [['BH-9,1,0'], { code: 'reference-broken', line: 2, column: 'location' }, /BH-9/],
    [['BH-1,5,1', 'BH-1,5,2'], { code: 'key-repeated', line: 3 }, /line 2/],
  ])('refuses %j', (rows, expected, says) => {
    const outcome = read(...rows)
    const issues = outcome.ok ? [] : outcome.issues
    expect(issues).toContainEqual(expect.objectContaining({ file: 'spiral-surveys.csv', ...expected }))
    expect(issues.find(({ code }) => code === expected.code)?.message).toMatch(says)
  })
})
