// @vitest-environment node
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { breakLines } from '../../../../web/report/pdf/break-lines.ts'
import { openPdf } from '../../../../web/report/pdf/open-pdf.ts'
import { openTypefaces } from '../../../../web/report/pdf/typeface.ts'
import { reportFonts } from '../../../support/report-fonts.ts'
import { madeReport } from '../made-report.ts'

const faces = openTypefaces(openPdf(madeReport()).pdf, reportFonts())
const lines = (text: string, room: number) =>
  breakLines([{ text, face: 'regular' }], faces, 10, room).map(({ runs }) =>
    runs.map((run) => run.text).join(''),
  )

test('breadths are those of the font’s own table', () => {
  // DejaVu Sans Condensed 2.37, tables cmap and hmtx (OpenType 1.9), their bytes read by hand; 2048 units to the em.
  for (const [letter, units] of [
    ['0', 1172],
    [' ', 585],
    ['A', 1260],
    ['o', 1127],
    ['−', 1544],
  ] as const)
    expect(faces.of.regular.widthPoints(letter, 2048)).toBeCloseTo(units, 6)
})

test('lines end at spaces, after hyphens and slashes, never at a no-break space', () => {
  expect(lines('one two three', 40)).toEqual(['one two', 'three'])
  expect(lines('well-known', 30)).toEqual(['well-', 'known'])
  expect(lines('a/b/c', 12)).toEqual(['a/', 'b/', 'c'])
  expect(lines('at 12\u00a0mm', 32)).toEqual(['at', '12\u00a0mm'])
  expect(lines('PZ-09', 20).join('')).toBe('PZ-09')
  expect(lines('', 20)).toEqual([''])
})

test('nothing is lost, and no line is broader than its room', () => {
  const words = fc.array(fc.stringMatching(/^[a-z0-9/-]{1,30}$/), { minLength: 1, maxLength: 20 })
  fc.assert(
    fc.property(words, fc.integer({ min: 12, max: 300 }), (all, room) => {
      const text = all.join(' ')
      const broken = lines(text, room)
      expect(broken.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''))
      for (const line of broken)
        expect(faces.of.regular.widthPoints(line, 10)).toBeLessThanOrEqual(room + 0.1)
    }),
    { seed: 11, numRuns: 200 },
  )
})

test('runs of two faces are one line, each where the one before ends', () => {
  const [line] = breakLines(
    [
      { text: 'It is ', face: 'regular' },
      { text: 'bold', face: 'bold' },
    ],
    faces,
    10,
    200,
  )
  expect(line?.runs.map(({ face }) => face)).toEqual(['regular', 'bold'])
  expect(line?.runs[1]?.at).toBeCloseTo(faces.of.regular.widthPoints('It is ', 10), 6)
})
