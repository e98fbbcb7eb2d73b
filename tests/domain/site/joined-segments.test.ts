import { describe, expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { smallSite } from './small-site.ts'

/** Depth of the middle and length of a segment, in metres, as written. */
type Segment = readonly [depth: string, length: string]

/** The small folder with strings of segments in one casing, or chains of beams along one wall. */
function folderWith(
  kind: 'in-place-inclinometer' | 'tilt-beam' | 'traversed-inclinometer',
  strings: Readonly<Record<string, readonly Segment[]>>,
) {
  const files = smallSite()
  const add = (file: string, lines: readonly string[]) =>
    files.set(file, `${files.get(file)}${lines.map((line) => `${line}\n`).join('')}`)
  const measures = {
    'in-place-inclinometer': ['inclination-a'],
    'tilt-beam': ['tilt'],
    'traversed-inclinometer': ['face-a0', 'face-a180'],
  }[kind]
  for (const [id, segments] of Object.entries(strings)) {
    add('instruments.csv', [`${id},${kind},BH-1,,top moves east,head,2027-01-22T09:00:00Z,,,no,`])
    const points = segments.map((segment, at) => ({ point: `${id}${at}`, segment }))
    add(
      'points.csv',
      points.map(({ point, segment: [depth, length] }) => `${point},${id},${depth},${length},,,,,`),
    )
    add(
      'sensors.csv',
      points.flatMap(({ point }) =>
        measures.map(
          (measure) =>
            `${point}/${measure},${point},${measure},,mA,${kind === 'tilt-beam' ? 'mm/m' : 'mm'},,,2,,,60,180`,
        ),
      ),
    )
  }
  return files
}

const findings = (
  kind: Parameters<typeof folderWith>[0],
  strings: Readonly<Record<string, readonly Segment[]>>,
) => {
  const read = readSite(folderWith(kind, strings))
  return read.ok ? [] : read.issues
}

describe.each(['in-place-inclinometer', 'tilt-beam', 'traversed-inclinometer'] as const)('%s', (kind) => {
  test('joined end to end is taken, within a hundredth of a metre', () => {
    expect(
      findings(kind, {
        J: [
          ['1', '2'],
          ['3.01', '2'],
          ['5.51', '3'],
        ],
      }),
    ).toEqual([])
  })

  test('a gap is found at the segment below it, with its size and what a real gap is written as', () => {
    const issues = findings(kind, {
      J: [
        ['1', '2'],
        ['3.5', '2'],
        ['5.5', '2'],
      ],
    })
    expect(issues).toMatchObject([
      { code: 'segments-apart', file: 'points.csv', line: 6, column: 'depthMetres', value: '3.5' },
    ])
    expect(issues[0]?.message).toMatch(/^J1 of J begins at 2\.5 m.*gap of 0\.5 m.*two instruments/)
  })

  test('an overlap is found, which no second instrument would mend', () => {
    const issues = findings(kind, {
      J: [
        ['1', '2'],
        ['3', '2.4'],
        ['5', '2'],
      ],
    })
    expect(issues).toMatchObject([
      { code: 'segments-overlap', file: 'points.csv', line: 6, expected: 'a segment that begins at 2 m' },
      { code: 'segments-overlap', file: 'points.csv', line: 7, expected: 'a segment that begins at 4.2 m' },
    ])
    expect(issues[0]?.message).not.toContain('two instruments')
  })

  test('a segment whose length alone is not stated hides no gap', () => {
    const issues = findings(kind, {
      J: [
        ['1', '2'],
        ['9', ''],
      ],
    })
    expect(issues).toContainEqual(
      expect.objectContaining({ file: 'points.csv', line: 6, column: expect.stringMatching(/^gauge/) }),
    )
  })

  test('two strings that are parted in one casing are two instruments', () => {
    const apart: Readonly<Record<string, readonly Segment[]>> = { J: [['1', '2']], K: [['8', '2']] }
    expect(findings(kind, apart)).toEqual([])
  })
})
