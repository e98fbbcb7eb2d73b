import { describe, expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import { alignmentsOfWorks, worksOnElements } from '#domain/geometry/alignment-of-works.ts'
import { openSiteGrid, type SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import { allMarks, type Mark } from '../../../../web/views/marks/mark.ts'
import { sectionScene } from '../../../../web/views/section/scene.ts'
import { groundTables } from '../../../../web/views/section/section-ground-tables.ts'
import { layOutSection } from '../../../../web/views/section/section-layout.ts'
import type { SectionPoint, SectionProps } from '../../../../web/views/section/section-props.ts'
import { sectionRemarks, sectionTable } from '../../../../web/views/section/section-table.ts'
import { boresAlong } from '../../../../web/views/section/works-marks.ts'

const opened = openSiteGrid('EPSG:3857')
if (!opened.ok) throw new Error('the grid of the test cannot be opened')
const grid = opened.value
const size = { widthPixels: 1100, heightPixels: 700, fontPixels: 13 }
const dayMs = 86_400_000

const ring = (corners: readonly (readonly [number, number])[]) =>
  [...corners, corners[0] as readonly [number, number]].map((corner) => [...grid.toLngLat(corner)])

const works: Works = {
  type: 'FeatureCollection',
  features: [
    feature(
      'dig-1',
      'excavation',
      ring([
        [20, -10],
        [60, -10],
        [60, 10],
        [20, 10],
      ]),
      4,
      -2,
      10,
      20,
    ),
    feature(
      'dig-2',
      'excavation',
      ring([
        [20, -10],
        [60, -10],
        [60, 10],
        [20, 10],
      ]),
      4,
      -5,
      20,
      null,
    ),
    feature(
      'wall',
      'wall',
      ring([
        [19, -10],
        [20, -10],
        [20, 10],
        [19, 10],
      ]),
      4,
      -18,
      5,
      null,
    ),
  ],
}

function feature(
  id: string,
  kind: 'excavation' | 'wall',
  coordinates: number[][],
  topLevelMetres: number,
  baseLevelMetres: number,
  fromDay: number,
  untilDay: number | null,
): Works['features'][number] {
  return {
    type: 'Feature',
    geometry: { type: 'Polygon', coordinates: [coordinates] },
    properties: {
      id,
      kind,
      name: id,
      barrier: kind === 'wall',
      fromEpochMs: fromDay * dayMs,
      untilEpochMs: untilDay === null ? null : untilDay * dayMs,
      topLevelMetres,
      baseLevelMetres,
    },
  }
}

const strata = [{ name: 'Clay', topLevelMetres: 1, baseLevelMetres: -5 }]
const hole = (id: string, eastingMetres: number, northingMetres: number) => ({
  id,
  eastingMetres,
  northingMetres,
  collarLevelMetres: 4,
  azimuthDegrees: 90,
  dipDegrees: 90,
  lengthMetres: 20,
  strata,
})
const tip = (changes: Partial<SectionPoint>): SectionPoint => ({
  point: 'PZ-09C',
  kind: 'piezometer',
  measure: 'pore-pressure',
  eastingMetres: 10,
  northingMetres: 3,
  levelMetres: -14,
  stratum: null,
  standing: 'within',
  value: 98.1,
  unit: 'kPa',
  decimals: 1,
  ageMs: 3_600_000,
  ...changes,
})
const section: SectionProps = {
  line: [
    [0, 0],
    [100, 0],
  ],
  grid,
  datum: 'site datum',
  groundLevelMetres: 4,
  waterUnitWeightKnPerM3: 9.81,
  works,
  alignments: [],
  holes: [hole('PZ-09', 10, 3), hole('PZ-10', 80, -4), hole('PZ-11', 50, 60)],
  points: [
    tip({}),
    tip({ point: 'PZ-10C', eastingMetres: 80, northingMetres: -4, standing: 'late' }),
    tip({ point: 'PZ-11C', northingMetres: 60 }),
  ],
  shapes: [],
  wells: [],
  clockEpochMs: 30 * dayMs,
  timeZone: 'UTC',
  offsetLimitMetres: 10,
  joinLayersWithinMetres: 30,
  trueScale: false,
  movementExaggeration: 100,
  levelCount: 2,
  selectedPoint: null,
  remarks: [],
  waiting: false,
}
const drawn = (changes: Partial<SectionProps> = {}) =>
  allMarks(sectionScene({ ...section, ...changes }, size))
const has = (mark: Mark, name: string) =>
  String(mark.attributes.class ?? '')
    .split(' ')
    .includes(name)

test('holes within the limit are shown with their offset, those farther off are not', () => {
  const names = drawn()
    .filter((mark) => has(mark, 'hole-name'))
    .map((mark) => mark.text)
  expect(names).toEqual(['PZ-09 3.0 m left', 'PZ-10 4.0 m right'])
  expect(sectionRemarks(section)[0]).toContain('2 of 2 brought onto it from aside; 1 lie farther off')
})

test('layers far apart are joined by dashes only, near ones are filled, and no base is drawn below a hole', () => {
  const far = drawn()
  expect(far.filter((mark) => has(mark, 'stratum'))).toHaveLength(2)
  expect(far.filter((mark) => has(mark, 'between-holes') && !has(mark, 'joined'))).toHaveLength(2)
  expect(far.filter((mark) => has(mark, 'stratum-body'))).toHaveLength(0)
  const near = drawn({ joinLayersWithinMetres: 100 })
  expect(near.filter((mark) => has(mark, 'joined'))).toHaveLength(2)
  expect(near.find((mark) => has(mark, 'stratum-body'))?.title).toBe(
    'Clay between PZ-09 and PZ-10, 70.3 m apart: taken as straight',
  )
  const short = {
    ...section,
    joinLayersWithinMetres: 100,
    holes: section.holes.map((one) => ({ ...one, lengthMetres: 9 })),
  }
  expect(drawn(short).filter((mark) => has(mark, 'joined'))).toHaveLength(1)
})

describe('works at the clock', () => {
  const digs = (day: number) =>
    drawn({ clockEpochMs: day * dayMs })
      .filter((mark) => has(mark, 'works-excavation'))
      .map((mark) => [mark.title?.split(':')[0], has(mark, 'there')])

  test('before a stage it is to come, during it is there, afterwards the next has replaced it', () => {
    expect(digs(1)).toEqual([
      ['dig-1 (to come)', false],
      ['dig-2 (to come)', false],
    ])
    expect(digs(15)).toEqual([
      ['dig-1', true],
      ['dig-2 (to come)', false],
    ])
    expect(digs(25)).toEqual([['dig-2', true]])
  })

  test('the excavation is cut where the line crosses it', () => {
    const { x } = layOutSection(section, size)
    const dig = drawn().find((mark) => has(mark, 'works-excavation'))
    expect(Number(dig?.attributes.x)).toBeCloseTo(x(20), 0)
    expect(Number(dig?.attributes.width)).toBeCloseTo(x(60) - x(20), 0)
  })
})

describe('scales', () => {
  test('true scale has as many pixels a metre up as along', () => {
    expect(layOutSection({ ...section, trueScale: true }, size).verticalExaggeration).toBe(1)
    expect(drawn({ trueScale: true }).some((mark) => mark.text?.startsWith('True scale'))).toBe(true)
  })

  test('an exaggeration is a round number and is said', () => {
    const { verticalExaggeration } = layOutSection(section, { ...size, widthPixels: 700, heightPixels: 900 })
    expect([1, 1.5, 2, 2.5, 3, 4, 5]).toContain(verticalExaggeration)
    expect(verticalExaggeration).toBeGreaterThan(1)
    const text = allMarks(sectionScene(section, { ...size, widthPixels: 700, heightPixels: 900 })).find(
      (mark) => mark.text?.startsWith('Vertical scale'),
    )?.text
    expect(text).toContain(`${verticalExaggeration} times the horizontal`)
    expect(text).toContain('Movements drawn 100 times larger')
  })
})

test('water would rise ten metres above a tip at 98.1 kPa', () => {
  const { y } = layOutSection(section, size)
  const mark = drawn().find((one) => has(one, 'water-mark'))
  expect(mark?.title).toBe('PZ-09C: water would rise to −4.00 m')
  const stem = drawn().find((one) => has(one, 'water-stem'))
  expect(Number(stem?.attributes.y2)).toBeCloseTo(y(-4), 0)
})

test('settlement hangs below the ground, larger by what is said, and joins in order of chainage', () => {
  const mark = (point: string, eastingMetres: number, value: number) =>
    tip({
      point,
      kind: 'settlement-point',
      measure: 'settlement',
      unit: 'mm',
      eastingMetres,
      northingMetres: 0,
      levelMetres: 4,
      value,
    })
  const points = [mark('SP-3', 90, 5), mark('SP-1', 5, 10), mark('SP-2', 15, 20)]
  const { y, x } = layOutSection({ ...section, points }, size)
  const line = drawn({ points }).find((one) => has(one, 'settlement'))
  expect(line?.attributes.d).toBe(
    `M${round(x(5))} ${round(y(4 - 1))}L${round(x(15))} ${round(y(4 - 2))}L${round(x(90))} ${round(y(4 - 0.5))}`,
  )
})

const round = (value: number) => Math.round(value * 10) / 10

test('every point can be chosen and its late one is hatched', () => {
  const marks = drawn()
  expect(
    marks.filter((mark) => has(mark, 'choosable')).map((mark) => mark.attributes['data-choice']),
  ).toEqual(['PZ-09C', 'PZ-10C'])
  expect(marks.filter((mark) => has(mark, 'hatch'))).toHaveLength(1)
})

test('the table tells what the drawing shows', () => {
  const { rows } = sectionTable(section, ['First', 'Second'])
  expect(rows.map((row) => row[0])).toEqual(['PZ-09C', 'PZ-10C'])
  expect(rows[0]).toEqual([
    'PZ-09C',
    '10.0',
    '3.0 m left',
    '−14.00',
    '98.1 kPa',
    '−4.00',
    '1 h',
    'Within levels',
  ])
})

describe('a bore', () => {
  const axis = (point: SitePoint) =>
    stationOf(
      [
        [50, -100],
        [50, 100],
      ],
      point,
    )

  test('square to the line is as wide as it is high', () => {
    const [bore] = boresAlong(section.line, 100, axis, 1.7)
    const chainages = bore?.map(([chainage]) => chainage) ?? []
    expect(Math.max(...chainages) - Math.min(...chainages)).toBeCloseTo(3.4, 0)
    expect(Math.max(...(bore?.map(([, half]) => half) ?? []))).toBeCloseTo(1.7, 1)
  })

  test('along the line is a band of its full height', () => {
    const along = boresAlong(
      [
        [50, -20],
        [50, 20],
      ],
      40,
      axis,
      1.7,
    )
    expect(along).toHaveLength(1)
    expect(along[0]?.every(([, half]) => Math.abs(half - 1.7) < 1e-9)).toBe(true)
  })

  test('out of reach is not there', () => {
    expect(
      boresAlong(
        [
          [0, 0],
          [40, 0],
        ],
        40,
        axis,
        1.7,
      ),
    ).toEqual([])
  })
})

test('without a line it asks for one', () => {
  expect(drawn({ line: [] }).map((mark) => mark.text)).toEqual(['Draw a line on the plan to cut a section.'])
})

test('a surveyed hole is drawn as it runs, a straight one from end to end', () => {
  const survey = [
    { depthMetres: 10, azimuthDegrees: 90, dipDegrees: 85 },
    { depthMetres: 20, azimuthDegrees: 90, dipDegrees: 80 },
  ]
  const holes = [{ ...hole('PZ-09', 10, 3), survey }]
  const pieces = (marks: readonly Mark[]) =>
    String(marks.find((mark) => has(mark, 'hole'))?.attributes.d).split('L').length
  expect(pieces(drawn({ holes }))).toBe(21)
  expect(pieces(drawn({ holes: [hole('PZ-09', 10, 3)] }))).toBe(2)
  const [placed] = layOutSection({ ...section, holes }, size).holes
  // On average 2.5° over the first ten metres, 7.5° over the next.
  expect(placed?.foot.chainageMetres).toBeCloseTo(10 + 0.436 + 1.305, 2)
})

test('where a millimetre of its length differs on the ground, both lengths are told', () => {
  const utm = openSiteGrid('EPSG:32630')
  if (!utm.ok) throw new Error('no grid')
  const line = [
    [500_000, 5_760_000],
    [500_100, 5_760_000],
  ] as const
  const said = sectionRemarks({ ...section, grid: utm.value, line, works: { ...works, features: [] } })
  // The scale of UTM on its central meridian is 0.9996: 40 mm in 100 m.
  expect(said[0]).toMatch(/^100\.000 m long on the site grid, 100\.040 m on the ground\./)
  expect(sectionRemarks(section)[0]).toMatch(/^100\.0 m long\./)
})

test('where it crosses an alignment its own chainage is told, from the arcs and not their chords', () => {
  const drive: Works['features'][number] = {
    type: 'Feature',
    geometry: {
      type: 'LineString',
      coordinates: [[50, -100] as const, [50, 100] as const].map((corner) => [...grid.toLngLat(corner)]),
    },
    properties: {
      id: 'drive',
      kind: 'tunnel',
      name: 'Drive',
      barrier: false,
      fromEpochMs: null,
      untilEpochMs: null,
      topLevelMetres: -8,
      baseLevelMetres: -12,
    },
  }
  const element = {
    alignment: 'drive',
    element: 1,
    startChainageMetres: 1000,
    startEastingMetres: 50,
    startNorthingMetres: -100,
    startBearingDegrees: 0,
    lengthMetres: 300,
    radiusMetres: 500,
    hand: 'right' as const,
  }
  const said = (rows: readonly (typeof element)[]) => {
    const all: Works = { type: 'FeatureCollection', features: [drive] }
    return sectionRemarks({
      ...section,
      works: worksOnElements(all, rows, grid),
      alignments: alignmentsOfWorks(all, rows, grid),
    }).join(' ')
  }
  expect(said([])).toContain('The line crosses Drive at its chainage 100.00 m.')
  // The arc comes up to the line after an angle whose sine is 100/500.
  expect(said([element])).toContain(`at its chainage ${(1000 + 500 * Math.asin(0.2)).toFixed(2)} m`)
})

describe('water between tips', () => {
  const deep = (changes: Partial<SectionPoint>) =>
    tip({ stratum: 'Dense sand', northingMetres: 0, ...changes })
  const pair = [
    deep({ point: 'PZ-1', eastingMetres: 10, value: 98.1 }),
    deep({ point: 'PZ-2', eastingMetres: 30, value: 117.72 }),
  ]
  const lines = (props: SectionProps) => drawn(props).filter((mark) => has(mark, 'water-line'))

  test('is joined between near tips of one stratum, at the levels to which it would rise', () => {
    const props = { ...section, works: { type: 'FeatureCollection' as const, features: [] }, points: pair }
    expect(lines(props)).toHaveLength(1)
    expect(lines({ ...props, joinLayersWithinMetres: 15 })).toHaveLength(0)
    const [first, second] = pair as [SectionPoint, SectionPoint]
    expect(lines({ ...props, points: [first, { ...second, stratum: 'Soft clay' }] })).toHaveLength(0)
    expect(lines({ ...props, points: [first, { ...second, standing: 'late' }] })).toHaveLength(0)
  })

  test('a wall that stands and reaches below the tips parts it; before it is built, or if it is too short, it does not', () => {
    const wall = (base: number, fromDay: number) => ({
      type: 'FeatureCollection' as const,
      features: [
        feature(
          'w',
          'wall',
          ring([
            [20, -5],
            [21, -5],
            [21, 5],
            [20, 5],
          ]),
          4,
          base,
          fromDay,
          null,
        ),
      ],
    })
    const props = (base: number, fromDay: number) => ({
      ...section,
      works: wall(base, fromDay),
      points: pair,
    })
    expect(lines(props(-18, 0))).toHaveLength(0)
    expect(lines(props(-10, 0))).toHaveLength(1)
    expect(lines(props(-18, 100_000))).toHaveLength(1)
  })
})

test('a pumped well stands in the section with its screen and its rate, one too far off does not', () => {
  const well = {
    id: 'W-1',
    eastingMetres: 40,
    northingMetres: 2,
    screenTopLevelMetres: -6,
    screenBaseLevelMetres: -14,
    rateLitresPerSecond: 22,
    text: 'W-1 22 l/s',
  }
  const marks = drawn({ wells: [well, { ...well, id: 'W-2', northingMetres: 60 }] })
  const screens = marks.filter((mark) => has(mark, 'well-screen'))
  expect(screens.map((mark) => mark.title)).toEqual(['Well W-1 22 l/s, screen from −6.0 down to −14.0 m'])
  expect(
    drawn({ wells: [{ ...well, screenTopLevelMetres: null }] }).some((mark) => has(mark, 'well-screen')),
  ).toBe(false)
})

describe('what cannot be mistaken for ground that stands still', () => {
  const far: Partial<SectionProps> = {
    line: [
      [10.7, 59.9],
      [10.8, 59.95],
    ],
    points: section.points.map((one) => ({ ...one, eastingMetres: 500_000, northingMetres: 310_000 })),
    holes: section.holes.map((one) => ({ ...one, eastingMetres: 500_000, northingMetres: 310_000 })),
    works: { type: 'FeatureCollection', features: [] },
  }
  const words = (changes: Partial<SectionProps>) =>
    drawn(changes)
      .filter((mark) => has(mark, 'message'))
      .map((mark) => mark.text)
      .join(' ')

  test('a line that crosses nothing has no ground, and says what to do', () => {
    const marks = drawn(far)
    expect(marks.some((mark) => has(mark, 'earth') || has(mark, 'ground-line'))).toBe(false)
    expect(words(far)).toContain('Nothing of the site lies on this line')
    expect(words(far)).toContain('read like degrees')
    expect(sectionRemarks({ ...section, ...far }).join(' ')).toContain('none was looked for here')
    expect(
      words({
        ...far,
        line: [
          [400_000, 1],
          [400_050, 1],
        ],
      }),
    ).toContain('326 km away')
  })

  test('a line without length says so', () => {
    expect(
      words({
        line: [
          [5, 5],
          [5, 5],
        ],
      }),
    ).toContain('The line has no length')
  })

  test('marks without values, late marks and no marks each have their sentence', () => {
    const mark = (point: string, eastingMetres: number, changes: Partial<SectionPoint>) =>
      tip({
        point,
        kind: 'settlement-point',
        measure: 'settlement',
        unit: 'mm',
        eastingMetres,
        northingMetres: 0,
        levelMetres: 4,
        value: 5,
        ...changes,
      })
    const said = (points: readonly SectionPoint[]) => sectionRemarks({ ...section, points }).join(' ')
    expect(said([])).toContain('No levelled mark lies within 10 m of the line')
    expect(said([mark('SP-1', 5, { value: null })])).toContain('None of 1 levelled marks has a value')
    const late = [mark('SP-1', 5, {}), mark('SP-2', 15, { standing: 'late' }), mark('SP-3', 25, {})]
    expect(said(late)).toContain('1 is not current and joined by dots')
    const traces = drawn({ points: late }).filter((one) => has(one, 'settlement'))
    expect(traces.map((one) => has(one, 'late'))).toEqual([true])
    const missing = [mark('SP-1', 5, {}), mark('SP-2', 15, { value: null }), mark('SP-3', 25, {})]
    expect(drawn({ points: missing }).some((one) => has(one, 'settlement'))).toBe(false)
  })

  test('movements that run out of the drawing are said to', () => {
    const shape = {
      instrument: 'IP-1',
      hole: hole('IP-1', 50, 0),
      late: false,
      places: [
        { depthMetres: 0, alongMillimetres: 200 },
        { depthMetres: 10, alongMillimetres: 0 },
      ],
    }
    const said = (movementExaggeration: number) =>
      sectionRemarks({ ...section, shapes: [shape], movementExaggeration }).join(' ')
    expect(said(500)).toContain('choose fewer times')
    expect(said(50)).not.toContain('choose fewer times')
  })
})

test('a hole that leans out of the section is drawn as far as it lies within, and its layers lean with it', () => {
  const leaning = { ...hole('PZ-09', 10, 3), azimuthDegrees: 0, dipDegrees: 60, lengthMetres: 30 }
  const props = { ...section, holes: [leaning] }
  const [placed] = layOutSection(props, size).holes
  expect(placed?.leaves).toBe(true)
  expect(placed?.foot.levelMetres).toBeGreaterThan(4 - 30 * Math.sin(Math.PI / 3))
  expect(drawn({ holes: [leaning] }).filter((mark) => has(mark, 'leaves'))).toHaveLength(1)
  expect(sectionRemarks(props).join(' ')).toContain('PZ-09 is in the section only from 4.0 down to')
  const along = { ...hole('PZ-10', 10, 0), azimuthDegrees: 90, dipDegrees: 45 }
  const { x } = layOutSection({ ...section, holes: [along] }, size)
  const layer = drawn({ holes: [along] }).find((mark) => has(mark, 'stratum'))
  // From 1 m, three metres below its collar, to −5 m it goes on as far as it goes down.
  const first = Number(/M([\d.]+)/.exec(String(layer?.attributes.d))?.[1])
  expect(layer?.tag).toBe('path')
  expect(first).toBeCloseTo(x(13) - size.fontPixels * 0.55, 0)
})

test('a layer without thickness and a hole without length are not drawn', () => {
  const flat = { ...hole('PZ-09', 10, 3), strata: [{ name: 'Clay', topLevelMetres: 1, baseLevelMetres: 1 }] }
  expect(drawn({ holes: [flat] }).some((mark) => has(mark, 'stratum'))).toBe(false)
  expect(drawn({ holes: [{ ...flat, lengthMetres: 0 }] }).some((mark) => has(mark, 'hole'))).toBe(false)
})

test('the further tables hold layers with how they are carried on, works and casings', () => {
  const tables = groundTables({ ...section, joinLayersWithinMetres: 100 })
  expect(tables.map(({ caption }) => caption.split(' ')[0])).toEqual(['Layers', 'Works'])
  expect(tables[0]?.rows[0]).toEqual([
    'PZ-09',
    '10.0',
    '3.0 m left',
    'Clay',
    '1.00',
    '−5.00',
    'filled, to PZ-10, 70.3 m apart',
  ])
  expect(tables[0]?.rows[1]?.at(-1)).toBe('not carried on')
  expect(tables[1]?.rows.map((row) => [row[0], row.at(-1)])).toContainEqual(['dig-1', 'gone, not drawn'])
})
