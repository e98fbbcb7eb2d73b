import { describe, expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { seriesIds } from '#domain/site/series-ids.ts'
import { smallSite } from './small-site.ts'

/** The small folder with lines added to its tables; a heading may be added with them. */
function folderWith(added: Readonly<Record<string, { heading?: string; lines: readonly string[] }>>) {
  const files = smallSite()
  for (const [file, { heading, lines }] of Object.entries(added)) {
    const [first = '', ...rest] = (files.get(file) ?? '').trimEnd().split('\n')
    const columns = heading === undefined ? 0 : heading.split(',').length
    const own = rest.map((line) => line + ','.repeat(columns))
    files.set(file, [heading ? `${first},${heading}` : first, ...own, ...lines, ''].join('\n'))
  }
  return files
}

const sensorLine = (point: string, measure: string, unit: string) =>
  `${point}/${measure},${point},${measure},,mA,${unit},,,2,,,60,180`

describe('a folder with instruments whose columns are new', () => {
  test('a chain of tilt beams lies along its location', () => {
    const read = readSite(
      folderWith({
        'locations.csv': {
          lines: ['TB-1,structure,500040,309985,4.6,90,0,6,2027-01-20T09:00:00Z,A. Reed'],
        },
        'instruments.csv': {
          lines: ['TB-1,tilt-beam,TB-1,,far end goes up,head,2027-01-22T09:00:00Z,,,no,'],
        },
        'points.csv': { lines: ['TB-1A,TB-1,1,2,,,,,', 'TB-1B,TB-1,4,4,,,,,'] },
        'sensors.csv': { lines: [sensorLine('TB-1A', 'tilt', "''"), sensorLine('TB-1B', 'tilt', "''")] },
      }),
    )
    if (!read.ok) throw new Error(JSON.stringify(read.issues))
    expect([...seriesIds(read.value)]).toContain('TB-1B/differential-settlement')
  })

  const extensometer = (cells: string) =>
    readSite(
      folderWith({
        'instruments.csv': {
          heading: 'anchorPositive,surveyedPoint,surveyMaximumAgeDays',
          lines: [`EX-1,extensometer,BH-1,,closing,surveyed-head,2027-01-22T09:00:00Z,,,no,,${cells}`],
        },
        'points.csv': { lines: ['EX-1,EX-1,0,,,,,,', 'EX-1A,EX-1,8,,,,,,'] },
        'sensors.csv': {
          lines: [sensorLine('EX-1', 'settlement', 'mm'), sensorLine('EX-1A', 'displacement', 'mm')],
        },
      }),
    )

  test('an extensometer from a surveyed head', () => {
    const read = extensometer('together,EX-1,10')
    if (!read.ok) throw new Error(JSON.stringify(read.issues))
    expect([...seriesIds(read.value)]).toEqual(expect.arrayContaining(['EX-1A/strain', 'EX-1A/settlement']))
  })

  test('is told with its line when it names a point that does not exist, or none', () => {
    const unknown = extensometer('together,EX-9,10')
    expect(unknown.ok ? [] : unknown.issues.map(({ column, line }) => [column, line])).toContainEqual([
      'surveyedPoint',
      5,
    ])
    const none = extensometer('together,,10')
    expect(none.ok ? [] : none.issues).toMatchObject([
      { code: 'surveyed-point-expected', file: 'instruments.csv', column: 'surveyedPoint', line: 5 },
    ])
  })

  test('an anchor below the end of its hole is refused', () => {
    const read = readSite(
      folderWith({
        'instruments.csv': {
          lines: ['EX-1,extensometer,BH-1,,closing,head,2027-01-22T09:00:00Z,,,no,'],
        },
        'points.csv': { lines: ['EX-1A,EX-1,23,,,,,,'] },
        'sensors.csv': { lines: [sensorLine('EX-1A', 'displacement', 'mm')] },
      }),
    )
    expect(read.ok ? [] : read.issues).toMatchObject([
      { code: 'depth-beyond-hole', file: 'points.csv', column: 'depthMetres', value: '23' },
    ])
  })
})
