import { describe, expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { seriesIds } from '#domain/site/series-ids.ts'
import { writeSite } from '#domain/site/write-site.ts'
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

  const studs = (zero: string) =>
    folderWith({
      'instruments.csv': {
        heading: 'studZeroAbMm,studZeroAcMm,studZeroBcMm',
        lines: [`CR-1,crack-meter,SP-1,,opening,,2027-01-22T09:00:00Z,,,no,,${zero}`],
      },
      'points.csv': { lines: ['CR-1,CR-1,0,,,,,,'] },
      'sensors.csv': {
        lines: ['ab', 'ac', 'bc'].map((side) => sensorLine('CR-1', `stud-length-${side}`, 'mm')),
      },
    })

  test('a crack gauge of three studs, and its line when a length at zero is missing', () => {
    const read = readSite(studs('100,90,95'))
    if (!read.ok) throw new Error(JSON.stringify(read.issues))
    expect([...seriesIds(read.value)]).toEqual(expect.arrayContaining(['CR-1/opening', 'CR-1/shear']))
    expect(readSite(writeSite(read.value))).toEqual(read)
    const without = readSite(studs('100,,95'))
    expect(without.ok ? [] : without.issues).toMatchObject([
      { code: 'stud-zero-expected', file: 'instruments.csv', line: 5, column: 'studZeroAcMm' },
    ])
  })

  test('a settlement cell below its reservoir', () => {
    const read = readSite(
      folderWith({
        'instruments.csv': { lines: ['SC-1,settlement-cell,SP-1,,settles,,2027-01-22T09:00:00Z,,,no,'] },
        'points.csv': {
          heading: 'zeroPressureKpa,zeroTemperatureDegC',
          lines: ['SC-1A,SC-1,0,,,,,,,29.4,11'],
        },
        'sensors.csv': {
          lines: [sensorLine('SC-1A', 'liquid-pressure', 'kPa'), sensorLine('SC-1A', 'temperature', 'degC')],
        },
      }),
    )
    if (!read.ok) throw new Error(JSON.stringify(read.issues))
    expect([...seriesIds(read.value)]).toContain('SC-1A/relative-settlement')
    expect(readSite(writeSite(read.value))).toEqual(read)
  })

  const facade = (...rows: string[]) => {
    const marks = [1, 2, 3].map((mark) => `SQ-${mark}`)
    return folderWith({
      'locations.csv': {
        lines: marks.map(
          (id, at) => `${id},structure,${500000 + 12 * at},309970,4.6,0,90,0,2027-01-20T09:00:00Z,A. Reed`,
        ),
      },
      'instruments.csv': {
        heading: 'surveyMaximumAgeDays,structureHeightMetres',
        lines: [
          'SL-1,structure-line,SP-1,,sagging,,2027-01-22T09:00:00Z,,,no,,0.25,9',
          ...marks.map((id) => `${id},settlement-point,${id},,down,,2027-01-22T09:00:00Z,,,no,,,`),
        ],
      },
      'points.csv': { lines: ['SL-1,SL-1,0,,,,,,', ...marks.map((id) => `${id},${id},0,,,,,,`)] },
      'sensors.csv': { lines: marks.map((id) => sensorLine(id, 'settlement', 'mm')) },
    }).set('structure-lines.csv', ['line,order,point', ...rows, ''].join('\n'))
  }

  test('a line through a structure can have trigger levels', () => {
    const files = facade('SL-1,1,SQ-1', 'SL-1,2,SQ-2', 'SL-1,3,SQ-3')
    files.set(
      'trigger-levels.csv',
      `${files.get('trigger-levels.csv')}SL-1 1,SL-1/deflection-ratio,1,either,0.3,2027-03-15T00:00:00Z,,Inspect,A. Reed,60,Design report,B. Stone,C. Hale\n`,
    )
    const read = readSite(files)
    if (!read.ok) throw new Error(JSON.stringify(read.issues))
    expect([...seriesIds(read.value)]).toEqual(
      expect.arrayContaining(['SL-1/deflection-ratio', 'SL-1/tilt', 'SQ-2/angular-distortion']),
    )
    expect(readSite(writeSite(read.value))).toEqual(read)
  })

  test.each([
    [['SL-1,1,SQ-1', 'SL-1,2,SQ-3', 'SL-1,3,SQ-2'], { code: 'structure-line-order', line: 4, value: 'SQ-2' }],
    [['SL-1,1,SQ-1', 'SL-1,2,PZ-1A', 'SL-1,3,SQ-3'], { code: 'structure-point-without-settlement', line: 3 }],
    [['SL-1,1,SQ-1', 'SL-1,2,SQ-9', 'SL-1,3,SQ-3'], { code: 'reference-broken', line: 3, value: 'SQ-9' }],
  ])('and is told with its row: %j', (rows, expected) => {
    const read = readSite(facade(...rows))
    expect(read.ok ? [] : read.issues).toContainEqual(
      expect.objectContaining({ file: 'structure-lines.csv', ...expected }),
    )
  })

  test('without rows it is refused at its instrument', () => {
    const read = readSite(facade())
    expect(read.ok ? [] : read.issues).toMatchObject([
      { code: 'structure-line-short', file: 'instruments.csv' },
    ])
  })
})
