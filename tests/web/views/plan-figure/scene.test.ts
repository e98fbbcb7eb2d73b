import { describe, expect, test } from 'vitest'
import { alignmentsOfWorks } from '#domain/geometry/alignment-of-works.ts'
import { openSiteGrid, type SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works, WorksProperties } from '#domain/site/site.ts'
import type { PlanSymbol } from '../../../../web/derived/plan-symbols.ts'
import { allMarks, type Mark } from '../../../../web/views/marks/mark.ts'
import type { PlanFigureProps } from '../../../../web/views/plan-figure/plan-figure-props.ts'
import { planFigureScene } from '../../../../web/views/plan-figure/scene.ts'
import type { SurfaceDrawing } from '../../../../web/views/plan-map/layers/surface-layers.ts'

const opened = openSiteGrid('EPSG:32632')
if (!opened.ok) throw new Error('the grid of the test cannot be opened')
const grid = opened.value
const size = { widthPixels: 700, heightPixels: 600, fontPixels: 11 }
/** Metres east and north of a corner of the zone. */
const at = (east: number, north: number): SitePoint => [500_000 + east, 5_500_000 + north]
const place = (east: number, north: number) => [...grid.toLngLat(at(east, north))]

const part = (
  id: string,
  kind: WorksProperties['kind'],
  geometry: Works['features'][number]['geometry'],
  fromEpochMs: number | null = null,
  untilEpochMs: number | null = null,
): Works['features'][number] => ({
  type: 'Feature',
  geometry,
  properties: {
    id,
    kind,
    name: id,
    barrier: false,
    fromEpochMs,
    untilEpochMs,
    topLevelMetres: null,
    baseLevelMetres: null,
  },
})
const square = (low: number, high: number) => ({
  type: 'Polygon' as const,
  coordinates: [[place(low, low), place(high, low), place(high, high), place(low, high), place(low, low)]],
})
const works: Works = {
  type: 'FeatureCollection',
  features: [
    part('Site', 'boundary', square(0, 100)),
    part('Dig', 'excavation', square(20, 60), 10),
    part('Shed', 'building', square(70, 90), null, 10),
    part('Later', 'wall', { type: 'LineString', coordinates: [place(0, 95), place(100, 95)] }, 1000),
    part('Bore', 'tunnel', { type: 'LineString', coordinates: [place(-20, 50), place(120, 50)] }),
  ],
}
const symbol = (id: string, east: number, north: number, changes: Partial<PlanSymbol> = {}): PlanSymbol => {
  const [longitude, latitude] = grid.toLngLat(at(east, north))
  const made = { id, instrument: id, kind: 'piezometer', longitude, latitude, points: [id] } as const
  return {
    ...made,
    standing: 'within',
    partLate: false,
    allLate: false,
    noLevel: 0,
    channels: 1,
    outOfUse: 0,
    outOfUseSinceEpochMs: null,
    cameLater: false,
    share: null,
    ageMs: 60_000,
    ...changes,
  }
}
const props = (changes: Partial<PlanFigureProps> = {}): PlanFigureProps => ({
  grid,
  works,
  alignments: alignmentsOfWorks(works, [], grid),
  wells: [],
  symbols: [symbol('PZ-01', 30, 30), symbol('PZ-02', 80, 30, { standing: 'level-2' })],
  levelNames: ['Attention', 'Action'],
  atEpochMs: 20,
  timeZone: 'UTC',
  showNames: true,
  surface: null,
  changes: [],
  extent: null,
  ...changes,
})
const drawn = (changes: Partial<PlanFigureProps> = {}) => allMarks(planFigureScene(props(changes), size))
const texts = (marks: readonly Mark[]) => marks.flatMap(({ text }) => (text === undefined ? [] : [text]))
const has = (mark: Mark, name: string) =>
  String(mark.attributes.class ?? '')
    .split(' ')
    .includes(name)
const standings = (marks: readonly Mark[]) =>
  marks
    .filter((mark) => has(mark, 'standing') && /^translate/.test(String(mark.attributes.transform)))
    .map(({ attributes }) =>
      /\(([-\d.]+) ([-\d.]+)\)/.exec(String(attributes.transform))?.slice(1).map(Number),
    )

test('one scale both ways, north up: places are where their grid coordinates say', () => {
  const [one, other, third] = standings(
    drawn({ symbols: [symbol('A', 10, 10), symbol('B', 60, 10), symbol('C', 10, 60)] }),
  )
  const [east, north] = [(other?.[0] ?? 0) - (one?.[0] ?? 0), (one?.[1] ?? 0) - (third?.[1] ?? 0)]
  expect(east).toBeGreaterThan(50)
  expect(north).toBeCloseTo(east, 0)
})

test('works are as they stand at the instant', () => {
  const marks = drawn()
  const said = marks.filter((mark) => has(mark, 'works')).map(({ title }) => title)
  expect(said).toContain('Dig')
  expect(said).toContain('Later (to come)')
  expect(said).not.toContain('Shed')
  expect(
    drawn({ atEpochMs: 5 })
      .filter((mark) => has(mark, 'works'))
      .map(({ title }) => title),
  ).toContain('Dig (to come)')
})

describe('states', () => {
  test('a reached level has its numeral, and the key its own name', () => {
    const marks = drawn()
    expect(marks.filter((mark) => has(mark, 'numeral')).map(({ text }) => text)).toContain('2')
    expect(texts(marks)).toContain('Action')
    expect(texts(marks)).not.toContain('Attention')
  })
  test('what is silent says its age even where names are not shown', () => {
    const late = symbol('PZ-03', 50, 70, { standing: 'late', ageMs: 3 * 86_400_000 })
    const words = texts(drawn({ showNames: false, symbols: [symbol('PZ-01', 30, 30), late] }))
    expect(words).toContain('PZ-03, 3 d old')
    expect(words).not.toContain('PZ-01')
    expect(words).toContain('No current data')
  })
  test('where a value came later there is an hourglass at the lower left of its plate, explained in the key', () => {
    const marks = drawn({ symbols: [symbol('PZ-01', 30, 30, { cameLater: true }), symbol('PZ-02', 80, 30)] })
    const [glass, ...inKey] = marks.filter((mark) =>
      mark.children?.some((child) => has(child, 'came-later-glass')),
    )
    expect(inKey).not.toHaveLength(0)
    const [[x = 0, y = 0] = []] = standings(marks)
    const [, left, below] = /\(([-\d.]+) ([-\d.]+)\)/.exec(String(glass?.attributes.transform)) ?? []
    expect(Number(left)).toBeLessThan(x)
    expect(Number(below)).toBeGreaterThan(y)
    expect(texts(marks)).toContain('a value of it came later than this instant')
    expect(texts(drawn())).not.toContain('a value of it came later than this instant')
  })
  test('some silent points are drawn and explained', () => {
    const marks = drawn({ symbols: [symbol('PZ-01', 30, 30, { partLate: true })] })
    expect(marks.filter((mark) => has(mark, 'part-late'))).toHaveLength(2)
    expect(texts(marks)).toContain('some of its points without current data')
  })
})

test('the alignment is ticked at round chainages, counted along it', () => {
  const names = texts(drawn()).filter((text) => text.startsWith('CH'))
  expect(names.length).toBeGreaterThan(2)
  // The bore is 140 m long from 20 m west of the corner.
  const metres = names.map((text) => Number(text.replace(/\D/g, '')))
  expect(new Set(metres.slice(1).map((one, before) => one - (metres[before] ?? 0))).size).toBe(1)
  expect(Math.max(...metres)).toBeLessThanOrEqual(140)
})

test('grid ticks, north arrow and a scale bar of round length', () => {
  const words = texts(drawn())
  expect(words.some((text) => /^E.5\d\d.\d{3}$/.test(text))).toBe(true)
  expect(words.some((text) => /^N.5.5\d\d.\d{3}$/.test(text))).toBe(true)
  expect(words).toContain('N')
  const bar = words.map((text) => /^(\d+) m$/.exec(text)?.[1]).find(Boolean)
  expect([2, 4, 10, 20, 40, 100]).toContain(Number(bar))
})

test('names that find no room are counted, never dropped without a word', () => {
  const crowd = Array.from({ length: 60 }, (_, number) =>
    symbol(`PZ-${number}`, 50 + (number % 8), 50 + number / 8),
  )
  expect(texts(drawn({ symbols: crowd })).join()).toMatch(/; \d+ names left out for want of room/)
  expect(texts(drawn()).join()).not.toMatch(/left out/)
})

test('what lies outside the extent is neither drawn nor in the key', () => {
  const far = symbol('RG-01', 95, 95, { kind: 'rain-gauge' })
  const shown = drawn({ symbols: [symbol('PZ-01', 30, 30), far], extent: [at(10, 10), at(60, 60)] })
  expect(texts(shown)).toContain('PZ-01')
  expect(texts(shown)).not.toContain('Rain gauge')
})

const surface: SurfaceDrawing = {
  bands: [{ middle: 5, rings: [[place(10, 10), place(50, 10), place(50, 50), place(10, 10)] as never] }],
  lines: [
    { value: 5, path: [place(10, 20), place(90, 20)] as never, certain: true },
    { value: -5, path: [place(10, 85), place(90, 85)] as never, certain: false },
  ],
  outline: [],
  hatches: [],
  arrows: [],
  marks: [],
  lowest: -5,
  highest: 5,
  colouring: 'movement',
  key: [{ sign: 'band', middle: 5, says: '0 to 10 mm' }],
  note: '',
}

test('contours say their values; those that may run elsewhere are dashed, and the key tells the bands', () => {
  const marks = drawn({ surface })
  expect(marks.filter((mark) => has(mark, 'contour')).map(({ attributes }) => attributes.class)).toEqual([
    'contour settles',
    'contour heave uncertain',
  ])
  expect(texts(marks)).toEqual(expect.arrayContaining(['5', '−5', '0 to 10 mm']))
})

test('a change is an arrow beside its point, as long as its share', () => {
  const arrows = (share: number) =>
    drawn({ changes: [{ symbol: 'PZ-01', bearingDegrees: 180, share, text: '3.2' }] })
      .filter((mark) => has(mark, 'change') && mark.tag === 'line')
      .map(({ attributes }) => Number(attributes.y2) - Number(attributes.y1))
  expect(arrows(1)[0]).toBeGreaterThan((arrows(0.2)[0] ?? 0) * 1.8)
  expect(arrows(0.2)[0]).toBeGreaterThan(0)
})
