import { expect, test } from 'vitest'
import type { FigureAxis, FigureProps } from '../../../../web/views/figure/figure-props.ts'
import { figureScene } from '../../../../web/views/figure/scene.ts'
import { allMarks, type Mark } from '../../../../web/views/marks/mark.ts'

const size = { widthPixels: 600, heightPixels: 500, fontPixels: 13 }
const axis = (given: Partial<FigureAxis> = {}): FigureAxis => ({
  name: 'Offset',
  unit: 'm',
  scale: 'even',
  reversed: false,
  decimals: 1,
  including: [],
  ...given,
})
const figure = (given: Partial<FigureProps> = {}): FigureProps => ({
  title: 'Settlement across the tunnel.',
  x: axis(),
  y: axis({ name: 'Settlement', unit: 'mm', reversed: true, including: [0] }),
  bands: [],
  curves: [{ name: 'fitted', style: 'fitted', places: [[-10, 1], [0, 8], null, [10, 1]] }],
  points: [
    { choice: 'SP-1', name: 'SP-1', place: [0, 9], halfBar: 0.6, leftOut: false, says: 'SP-1: 9 mm.' },
    { choice: null, name: 'SP-2', place: [5, 30], halfBar: null, leftOut: true, says: 'SP-2 is left out.' },
  ],
  rules: [{ across: 'x', at: 0, name: 'axis' }],
  selected: null,
  timeZone: 'UTC',
  table: { caption: '', headings: [], rows: [] },
  remarks: [],
  message: null,
  ...given,
})
const drawn = (props: FigureProps) => allMarks(figureScene(props, size))
const has = (mark: Mark, name: string) =>
  String(mark.attributes.class ?? '')
    .split(' ')
    .includes(name)
const points = (marks: readonly Mark[]) => marks.filter((mark) => mark.tag === 'circle' && mark.title)

test('settlement grows downwards, and every value finds room', () => {
  const [shallow, deep] = points(drawn(figure()))
  expect(Number(deep?.attributes.cy)).toBeGreaterThan(Number(shallow?.attributes.cy))
  for (const mark of points(drawn(figure()))) {
    expect(Number(mark.attributes.cx)).toBeGreaterThan(0)
    expect(Number(mark.attributes.cx)).toBeLessThan(size.widthPixels)
    expect(Number(mark.attributes.cy)).toBeLessThan(size.heightPixels)
  }
})

test('what is left out is hollow, struck through and counted in the key', () => {
  const marks = drawn(figure())
  expect(marks.filter((mark) => has(mark, 'left-out'))).toHaveLength(1)
  expect(marks.filter((mark) => has(mark, 'figure-stroke'))).toHaveLength(1)
  expect(marks.some((mark) => mark.text === '1 measured, bars of 95 %; 1 left out, struck through')).toBe(
    true,
  )
})

test('a point that can be chosen answers to the keyboard and says what it is', () => {
  const marks = drawn(figure({ selected: 'SP-1' })).filter((mark) => mark.attributes['data-choice'])
  expect(marks).toHaveLength(1)
  expect(marks[0]?.attributes).toMatchObject({
    tabindex: 0,
    'aria-label': 'SP-1: 9 mm.',
    'aria-pressed': 'true',
  })
})

test('a gap in a curve stays a gap', () => {
  const curve = drawn(figure()).find((mark) => has(mark, 'figure-curve') && mark.title === 'fitted')
  expect(String(curve?.attributes.d).match(/M/g)).toHaveLength(2)
})

test('by decades, nought and less are left away and ticks are powers of ten', () => {
  const marks = drawn(
    figure({
      x: axis({ name: 'Time', unit: 'd', scale: 'decades' }),
      curves: [
        {
          name: 'fitted',
          style: 'fitted',
          places: [
            [0, 1],
            [1, 2],
            [1000, 3],
          ],
        },
      ],
      points: [],
      rules: [],
    }),
  )
  const texts = marks.filter((mark) => has(mark, 'tick')).map((mark) => mark.text)
  expect(texts).toEqual(expect.arrayContaining(['1', '10', '100', '1000']))
  const curve = marks.find((mark) => has(mark, 'figure-curve') && mark.title === 'fitted')
  expect(String(curve?.attributes.d)).not.toMatch(/NaN|Infinity/)
})

test('a figure without values says why and draws no number that is not one', () => {
  const marks = drawn(figure({ curves: [], points: [], rules: [], message: 'No values yet.' }))
  expect(marks.some((mark) => mark.text === 'No values yet.')).toBe(true)
  expect(JSON.stringify(marks)).not.toMatch(/NaN|null,null/)
})

test('a cloud of points is drawn small and below the line through it', () => {
  const many = Array.from({ length: 200 }, (_, at) => ({
    choice: null,
    name: '',
    place: [at / 100, at / 100] as const,
    halfBar: null,
    leftOut: false,
    says: `Pair ${at}.`,
  }))
  const marks = drawn(figure({ points: many }))
  const cloud = marks.findIndex((mark) => has(mark, 'cloud'))
  const curves = marks.findIndex((mark) => has(mark, 'curves'))
  expect(cloud).toBeGreaterThan(-1)
  expect(curves).toBeGreaterThan(cloud)
  const few = drawn(figure())
  expect(Number(points(marks)[0]?.attributes.r)).toBeLessThan(Number(points(few)[0]?.attributes.r))
})
