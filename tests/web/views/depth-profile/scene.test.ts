import { expect, test } from 'vitest'
import type { DepthProfileProps, ProfileReading } from '../../../../web/views/depth-profile/profile-props.ts'
import { profileRemarks, profileTable } from '../../../../web/views/depth-profile/profile-table.ts'
import { depthProfileScene } from '../../../../web/views/depth-profile/scene.ts'
import { allMarks, type Mark, textWidth } from '../../../../web/views/marks/mark.ts'

const size = { widthPixels: 640, heightPixels: 700, fontPixels: 13 }
const hourMs = 3_600_000
const reading = (point: string, value: number | null, late = false): ProfileReading => ({
  point,
  value,
  atEpochMs: value === null ? null : 90 * hourMs,
  late,
  standing: late ? 'late' : 'within',
})
const string: DepthProfileProps = {
  instrument: 'PZ-09',
  kind: 'piezometer',
  valueName: 'Pore pressure',
  unit: 'kPa',
  decimals: 1,
  datum: 'site datum',
  timeZone: 'UTC',
  collarLevelMetres: 4.6,
  points: [
    { point: 'PZ-09A', depthMetres: 5.6, levelMetres: -1 },
    { point: 'PZ-09B', depthMetres: 12, levelMetres: -7.4 },
    { point: 'PZ-09C', depthMetres: 18.6, levelMetres: -14 },
  ],
  curves: [
    {
      heading: 'At the clock',
      atEpochMs: 100 * hourMs,
      readings: [reading('PZ-09A', 20), reading('PZ-09B', 83), reading('PZ-09C', 120, true)],
    },
  ],
  strata: [{ name: 'Soft clay', topLevelMetres: 1.6, baseLevelMetres: -5.4 }],
  water: { levelMetres: 1, unitWeightKnPerM3: 9.81, sentence: 'Pressure at rest below 1.00 m' },
  expected: null,
  still: null,
  joined: false,
  positiveMeans: 'pressure above zero gauge pressure',
  levels: [],
  levelCount: 3,
  selectedPoint: 'PZ-09B',
  remarks: [],
  waiting: false,
}
const drawn = (props: DepthProfileProps) => allMarks(depthProfileScene(props, size))
const has = (mark: Mark, name: string) =>
  String(mark.attributes.class ?? '')
    .split(' ')
    .includes(name)

test('levels go up: the deepest tip is lowest on the drawing', () => {
  const y = drawn(string)
    .filter((mark) => has(mark, 'choosable'))
    .map((mark) => Number(/ ([-\d.]+)\)/.exec(String(mark.attributes.transform))?.[1]))
  expect(y).toHaveLength(3)
  expect(y[0]).toBeLessThan(y[1] as number)
  expect(y[1]).toBeLessThan(y[2] as number)
})

test('every tip can be chosen and says its value, age and lateness', () => {
  const says = drawn(string)
    .filter((mark) => has(mark, 'choosable'))
    .map((mark) => mark.title)
  expect(says[2]).toBe('PZ-09C: 120.0 kPa at Mon 5 Jan 1970 04:00, read 10 h before, no current data')
})

test('a late tip is hollow and hatched, a current one is neither', () => {
  const marks = drawn(string)
  expect(marks.filter((mark) => has(mark, 'standing-late'))).toHaveLength(1)
  expect(marks.filter((mark) => has(mark, 'hatch'))).toHaveLength(1)
})

test('the line of pressure at rest starts at nothing at the water level', () => {
  const line = drawn(string).find((mark) => has(mark, 'hydrostatic') && mark.title)
  const zero = drawn(string).find((mark) => has(mark, 'zero'))
  const [startX] = String(line?.attributes.d).slice(1).split(' ').map(Number)
  expect(startX).toBeCloseTo(Number(zero?.attributes.x1), 0)
})

test('tips stand alone; anchors are joined from the place that is still', () => {
  expect(drawn(string).some((mark) => has(mark, 'trace') && mark.attributes.d !== '')).toBe(false)
  const anchors = {
    ...string,
    joined: true,
    water: null,
    still: { levelMetres: 4.6, sentence: 'From the head.' },
  }
  const [current, notCurrent] = drawn(anchors).filter((mark) => has(mark, 'trace'))
  expect(String(current?.attributes.d).match(/[ML]/g)).toEqual(['M', 'L', 'L'])
  // The deepest is late: the piece that leads to it is not of now.
  expect(String(notCurrent?.attributes.d).match(/[ML]/g)).toEqual(['M', 'L'])
  expect(has(notCurrent as Mark, 'not-current')).toBe(true)
  expect(profileRemarks(anchors)).toContain('From the head.')
})

test('a point without a value breaks the line and is named as such', () => {
  const [first] = string.curves
  const broken = {
    ...string,
    joined: true,
    curves: [
      {
        ...(first as NonNullable<typeof first>),
        readings: [reading('PZ-09A', 1), reading('PZ-09B', null), reading('PZ-09C', 3)],
      },
    ],
  }
  const trace = drawn(broken).find((mark) => has(mark, 'trace'))
  expect(String(trace?.attributes.d).match(/[ML]/g)).toEqual(['M', 'M'])
  expect(drawn(broken).some((mark) => mark.text === 'PZ-09B  no value')).toBe(true)
  expect(profileRemarks(broken)).toContain('1 of 3 points have no value at the clock.')
})

test('the table has the same numbers, with ages', () => {
  const { headings, rows } = profileTable(string)
  expect(headings).toHaveLength(5)
  expect(rows[2]).toEqual(['PZ-09C', '18.60', '−14.00', '120.0', '10 h, late'])
})

test('with nothing known it says so', () => {
  const none = { ...string, curves: string.curves.map((curve) => ({ ...curve, readings: [] })) }
  expect(drawn(none).some((mark) => mark.text === 'No values at or before these dates.')).toBe(true)
  expect(drawn({ ...none, waiting: true }).some((mark) => mark.text === 'Fetching values …')).toBe(true)
})

const boxOf = (mark: Mark | undefined) =>
  ['x', 'y', 'width', 'height'].map((name) => Number(mark?.attributes[name])) as [
    number,
    number,
    number,
    number,
  ]

test('on a broad and low drawing the key stands beside the profile, which keeps its height', () => {
  const dates = ['23 May', '15 Jun', '1 Aug'].map((heading) => ({
    heading,
    atEpochMs: 100 * hourMs,
    readings: [reading('PZ-09A', 21)],
  }))
  const props = { ...string, curves: [...string.curves, ...dates] }
  const pane = (sized: typeof size) =>
    boxOf(allMarks(depthProfileScene(props, sized)).find((mark) => has(mark, 'pane')))
  const board = { widthPixels: 1860, heightPixels: 560, fontPixels: 28 }
  const [left, top, width, height] = pane(board)
  expect(height).toBeGreaterThan(0.7 * board.heightPixels)
  const names = allMarks(depthProfileScene(props, board)).filter((mark) => has(mark, 'key-name'))
  const places = names.map((mark) => [Number(mark.attributes.x), Number(mark.attributes.y)] as const)
  expect(names.map(({ text }) => text).join(' ')).toContain(
    'At the clock: Mon 5 Jan 1970 04:00; oldest reading 10 h',
  )
  for (const [x, y] of places) {
    // The scale of depths stands between.
    expect(x).toBeGreaterThan(left + width + 3 * board.fontPixels)
    expect(y).toBeLessThan(board.heightPixels)
    expect(y).toBeGreaterThan(top - 2 * board.fontPixels)
  }
  expect(new Set(places.map(([, y]) => y)).size).toBe(places.length)
  // Upright there is room above.
  const [, under, broad] = pane(size)
  expect(under).toBeGreaterThan(5 * size.fontPixels)
  expect(broad).toBeGreaterThan(0.8 * size.widthPixels)
})

test('the key says a date once, whether its heading is short or whole', () => {
  const date = (heading: string, atEpochMs: number) => ({
    heading,
    atEpochMs,
    readings: [reading('PZ-09A', 21)],
  })
  const curves = [...string.curves, date('5 Jan 03:00', 99 * hourMs), date('5 Jan 1970 02:00', 98 * hourMs)]
  const names = drawn({ ...string, curves })
    .filter((mark) => has(mark, 'key-name'))
    .map(({ text }) => text?.split(';')[0])
  expect(names.slice(0, 3)).toEqual([
    'At the clock: Mon 5 Jan 1970 04:00',
    'Mon 5 Jan 1970 03:00',
    'Mon 5 Jan 1970 02:00',
  ])
})

test('no mark and no name of a point lies over that of the collar, wherever its value is', () => {
  const board = { widthPixels: 900, heightPixels: 1000, fontPixels: 26 }
  for (const sized of [size, board])
    for (const value of [-40, -20, 0, 5, 10, 20, 40, 80, 110, 120])
      for (const levelMetres of [4.6, 5.2, 4]) {
        const points = [{ point: 'PZ-09A', depthMetres: 0, levelMetres }, ...string.points.slice(1)]
        const readings = [reading('PZ-09A', value), reading('PZ-09B', 60), reading('PZ-09C', 120)]
        const curves = [{ heading: 'At the clock', atEpochMs: 100 * hourMs, readings }]
        const marks = allMarks(depthProfileScene({ ...string, points, curves }, sized))
        const roomOf = (start: string) => {
          const mark = marks.find(({ text }) => text?.startsWith(start))
          if (!mark) return null
          const breadth = textWidth(mark.text ?? '', sized.fontPixels)
          const x = Number(mark.attributes.x)
          const anchor = mark.attributes['text-anchor']
          const left = anchor === 'end' ? x - breadth : anchor === 'middle' ? x - breadth / 2 : x
          return { left, right: left + breadth, foot: Number(mark.attributes.y) }
        }
        const [collar, name] = [roomOf('Collar'), roomOf('PZ-09A')]
        if (!collar) throw new Error('the collar has no name')
        const where = `${value} at ${levelMetres} on ${sized.widthPixels}`
        const symbol = marks.find((mark) => has(mark, 'choosable'))
        const [x, y] =
          String(symbol?.attributes.transform)
            .match(/-?[\d.]+/g)
            ?.map(Number) ?? []
        const over = Math.abs((y ?? 0) - collar.foot + 0.35 * sized.fontPixels) < 0.6 * sized.fontPixels
        expect(over && (x ?? 0) > collar.left && (x ?? 0) < collar.right, `the mark of ${where}`).toBe(false)
        // A name that finds no room is left to the table.
        if (name === null) continue
        const apart =
          name.right <= collar.left ||
          collar.right <= name.left ||
          Math.abs(name.foot - collar.foot) >= sized.fontPixels
        expect(apart, `the name of ${where}`).toBe(true)
      }
})
