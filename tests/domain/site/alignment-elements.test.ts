import { expect, test } from 'vitest'
import { alignmentsOfWorks, worksOnElements } from '#domain/geometry/alignment-of-works.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings =
  'alignment,element,startChainageMetres,startEastingMetres,startNorthingMetres,startBearingDegrees,lengthMetres,radiusMetres,hand'
/** 100 m east, then a quarter turn to the right on 200 m, ending southwards. */
const straight = 'drive,1,1000,500000,310000,90,100,,'
const arc = 'drive,2,1100,500100,310000,90,314.159265,200,right'

/** The small site with a tunnel drawn by its corners, easting and northing from 500000, 310000. */
function siteWith(
  rows: readonly string[],
  corners = [
    [0, 0],
    [100, 0],
    [300, -200],
  ],
): Map<string, string> {
  const files = smallSite()
  const grid = openGridOfSite({
    crs: '+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m',
  })
  if (!grid.ok) throw new Error('the grid of the small site cannot be opened')
  const coordinates = corners.map(([e = 0, n = 0]) => grid.value.toLngLat([500000 + e, 310000 + n]))
  const feature = {
    type: 'Feature',
    geometry: { type: 'LineString', coordinates },
    properties: {
      id: 'drive',
      kind: 'tunnel',
      name: 'Drive',
      barrier: false,
      fromAt: null,
      untilAt: null,
      topLevelMetres: -8,
      baseLevelMetres: -12,
    },
  }
  const works = files.get('works.geojson') ?? ''
  files.set('works.geojson', works.replace(/\n {2}\]/, `,\n    ${JSON.stringify(feature)}\n  ]`))
  if (rows.length > 0) files.set('alignment-elements.csv', [headings, ...rows].join('\n'))
  return files
}

const read = (rows: readonly string[], corners?: number[][]) => {
  const outcome = readSite(siteWith(rows, corners))
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  const grid = openGridOfSite(outcome.value.facts)
  if (!grid.ok) throw new Error('no grid')
  return { model: outcome.value, grid: grid.value }
}

test('chainage and offset come from the elements, not from the drawn line, and survive being written', () => {
  const { model, grid } = read([straight, arc])
  const [drive] = alignmentsOfWorks(model.works, model.alignmentElements, grid)
  // Half of the quarter turn: the foot lies 45° around the centre 500100, 309800; 10 m outside is left of travel.
  const out = 210 * Math.SQRT1_2
  const station = drive?.stationOf([500100 + out, 309800 + out])
  expect(station?.chainageMetres).toBeCloseTo(1100 + 50 * Math.PI, 6)
  expect(station?.offsetMetres).toBeCloseTo(-10, 6)
  expect(drive).toMatchObject({ byElements: true, startChainageMetres: 1000 })
  expect(readSite(writeSite(model))).toEqual({ ok: true, value: model })
})

test('without elements chainage is along the line as drawn, from 0', () => {
  const { model, grid } = read([])
  const [drive] = alignmentsOfWorks(model.works, model.alignmentElements, grid)
  expect(drive).toMatchObject({ byElements: false, startChainageMetres: 0 })
  const station = drive?.stationOf([500050, 309997])
  expect(station?.chainageMetres).toBeCloseTo(50, 6)
  expect(station?.offsetMetres).toBeCloseTo(3, 6)
})

test('the plan draws an arc by chords within 10 mm of it', () => {
  const { model, grid } = read([straight, arc])
  const drawn = worksOnElements(model.works, model.alignmentElements, grid).features.at(-1)
  const corners =
    drawn?.geometry.type === 'LineString'
      ? drawn.geometry.coordinates.map((place) => grid.toGrid([place[0] ?? 0, place[1] ?? 0]))
      : []
  expect(corners.length).toBeGreaterThan(50)
  for (let place = 1; place + 1 < corners.length; place++) {
    const [[ae, an], [be, bn]] = [corners[place] ?? [0, 0], corners[place + 1] ?? [0, 0]]
    const radius = Math.hypot((ae + be) / 2 - 500100, (an + bn) / 2 - 309800)
    expect(200 - radius).toBeGreaterThan(-1e-4)
    expect(200 - radius).toBeLessThan(0.01)
  }
  expect(worksOnElements(model.works, [], grid)).toBe(model.works)
})

test.each([
  [
    [straight, arc.replace('right', '')],
    { code: 'arc-incomplete', line: 3, column: 'hand' },
    /Write left or right/,
  ],
  [
    [straight, arc.replace('200,', ',')],
    { code: 'arc-incomplete', line: 3, column: 'radiusMetres' },
    /no radius/,
  ],
  [
    [straight, arc.replace(',200,', ',-200,')],
    { code: 'out-of-range', line: 3, column: 'radiusMetres' },
    /-200/,
  ],
  [[straight, arc.replace('314.159265', '1300')], { code: 'arc-full-turn', line: 3 }, /full circle/],
  [
    [straight, arc.replace('500100', '500100.02')],
    { code: 'elements-apart', line: 3, column: 'startEastingMetres' },
    /0\.020 m from where the one before ends, 500100\.000 E/,
  ],
  [[straight, arc.replace(',90,', ',90.02,')], { code: 'elements-not-tangent', line: 3 }, /meet in a corner/],
  [[straight, arc.replace('1100', '1120')], { code: 'chainage-jumps', line: 3 }, /must run on/],
  [
    [straight, arc.replace('drive,2', 'drive,3')],
    { code: 'element-number', line: 3, column: 'element' },
    /expected/,
  ],
  [[straight.replace('drive', 'drives')], { code: 'alignment-unknown', line: 2 }, /Did you mean "drive"/],
  [[straight.replace('drive', 'box')], { code: 'alignment-unknown', line: 2 }, /no line "box"/],
  [[straight, arc.replace('right', 'left')], { code: 'alignment-off-drawing', line: 2 }, /off its elements/],
])('refuses %j', (rows, expected, says) => {
  const outcome = readSite(siteWith(rows))
  const issues = outcome.ok ? [] : outcome.issues
  expect(issues).toContainEqual(expect.objectContaining({ file: 'alignment-elements.csv', ...expected }))
  expect(issues.find(({ code }) => code === expected.code)?.message).toMatch(says)
})

test('refuses elements against the direction of the drawn line, and takes tables in any order', () => {
  const against = readSite(
    siteWith(
      [straight, arc],
      [
        [300, -200],
        [100, 0],
        [0, 0],
      ],
    ),
  )
  expect(against.ok ? [] : against.issues.map(({ code }) => code)).toEqual(['alignment-against-drawing'])
  expect(readSite(siteWith([arc, straight])).ok).toBe(true)
  expect(readSite(siteWith([straight.replace(',90,', ',450,')])).ok).toBe(false)
})
