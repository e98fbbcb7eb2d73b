import { describe, expect, test } from 'vitest'
import { type Drawn, drawnMarks, sheetPalette } from '../../../../web/report/marks/drawn-marks.ts'
import { group, label, line, type Mark, path } from '../../../../web/views/marks/mark.ts'
import { standingMark } from '../../../../web/views/marks/standing-marks.ts'
import { drawnByHand } from '../made-report.ts'

const room = { widthPixels: 400, heightPixels: 200, fontPixels: 11 }
const drawn = (marks: readonly Mark[]) => drawnMarks(marks, 'figure', 11)
const shapes = (all: readonly Drawn[]) => all.flatMap((one) => (one.kind === 'shape' ? [one] : []))
const texts = (all: readonly Drawn[]) => all.flatMap((one) => (one.kind === 'text' ? [one] : []))

test('styles come from classes, later rules and inner marks over outer ones', () => {
  const [rule, strong] = shapes(drawn([line('rule', 0, 0, 1, 1), line('rule strong', 0, 0, 1, 1)]))
  expect([rule?.stroke, rule?.strokePixels]).toEqual([sheetPalette.rule, 0.6])
  expect([strong?.stroke, strong?.strokePixels]).toEqual([sheetPalette.inkSoft, 0.9])
  const [limit] = shapes(drawn([path('figure-curve limit', 'M0 0L9 9')]))
  expect(limit).toMatchObject({ fill: null, stroke: sheetPalette.lastLevel, dash: [12, 3, 3, 3] })
})

test('an ink gives the line its colour and its dash', () => {
  const [trace] = shapes(drawn([path('trace ink-1', 'M0 0L9 9')]))
  expect(trace).toMatchObject({ stroke: sheetPalette.settled, dash: [7, 3], round: true })
})

describe('what views may draw beside outlines', () => {
  const all = drawn(drawnByHand.scene(room))
  test('a pattern is its own marks, repeated and kept within the outline', () => {
    // Strokes of a cell of 20 by 20 over 10 to 110 by 10 to 60: six by three cells.
    const strokes = shapes(all).filter(({ clips, outline }) => clips.length === 1 && outline.length === 2)
    expect(strokes.filter(({ stroke }) => stroke === sheetPalette.inkSoft).length).toBeGreaterThanOrEqual(18)
    expect(strokes[0]?.clips[0]?.slice(0, 2)).toEqual([
      ['M', 10, 10],
      ['L', 110, 10],
    ])
  })
  test('a clip is an outline that what it holds is kept within', () => {
    const clipped = shapes(all).find(({ dash }) => dash.join() === '5,3')
    expect(clipped?.clips[0]?.[2]).toEqual(['L', 200, 200])
  })
  test('a turned text keeps its anchor', () => {
    const [word] = texts(all)
    expect(word).toMatchObject({ text: 'upwards', anchor: 'middle' })
    expect(word?.matrix.map((one) => Math.round(one) + 0)).toEqual([0, -1, 1, 0, 150, 100])
  })
})

describe('a point in its state', () => {
  const pointAt = (standing: 'within' | 'late' | 'level-1' | 'level-3') =>
    drawn([standingMark(50, 60, 8, standing, 3, 'piezometer')])
  test('is filled by it: hollow and dashed without current data', () => {
    expect(shapes(pointAt('within'))[0]?.fill).toBe(sheetPalette.withinLevels)
    expect(shapes(pointAt('late'))[0]).toMatchObject({ fill: sheetPalette.sheet, dash: [4, 2.5] })
  })
  test('carries its level as a numeral, from the first colour to the last', () => {
    expect(shapes(pointAt('level-1'))[0]?.fill).toBe(sheetPalette.firstLevel)
    expect(shapes(pointAt('level-3'))[0]?.fill).toBe(sheetPalette.lastLevel)
    expect(texts(pointAt('level-3')).map(({ text }) => text)).toEqual(['3'])
  })
  test('is moved and scaled with its strokes', () => {
    const [plate, glyph] = shapes(pointAt('within'))
    expect(plate?.outline[0]).toEqual(['M', 58, 60])
    expect(glyph?.strokePixels).toBeCloseTo((2.2 * 8 * 1.35) / 24, 2)
  })
})

test('a plate that a view lays below a text goes with that text', () => {
  const marks = [
    { tag: 'rect', attributes: { class: 'text-ground', x: 0, y: 0, width: 9, height: 9 } } as const,
    label('value-text', 5, 5, '3.2'),
    label('value-text', 9, 9, 'plain'),
  ]
  expect(texts(drawn(marks)).map(({ ground }) => ground !== null)).toEqual([true, false])
})

test('a colour that paper does not know is refused by name', () => {
  const mark = { tag: 'path', attributes: { class: '', d: 'M0 0L1 1', fill: 'hotpink' } } as const
  expect(() => drawn([group('', [mark])])).toThrow(/hotpink/)
})

describe('on white paper', () => {
  /** Relative luminance and contrast ratio of WCAG 2.2. */
  const luminance = (colour: string) => {
    const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((place) => {
      const share = Number.parseInt(colour.slice(place, place + 2), 16) / 255
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
    })
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
  }
  const onWhite = (colour: string) => 1.05 / (luminance(colour) + 0.05)
  const inks = [0, 1, 2, 3, 4, 5].map((ink) => shapes(drawn([path(`trace ink-${ink}`, 'M0 0L9 9')]))[0])

  test('lines stand out (WCAG 2.2, 1.4.11) and keep apart without colour by their dashes', () => {
    for (const ink of inks) expect(onWhite(ink?.stroke ?? '#ffffff')).toBeGreaterThanOrEqual(3)
    expect(new Set(inks.map((ink) => ink?.dash.join())).size).toBe(6)
  })
  test('levels stand out too, and keep apart by their dashes', () => {
    const levels = [1, 2].map(
      (level) => shapes(drawnMarks([line(`level level-${level}`, 0, 0, 9, 0)], 'time-history', 11))[0],
    )
    for (const level of levels) expect(onWhite(level?.stroke ?? '#ffffff')).toBeGreaterThanOrEqual(3)
    expect(new Set(levels.map((level) => level?.dash.join())).size).toBe(2)
  })
  test.each(['tick', 'axis-name', 'value-text', 'message', 'soft', 'pane-name'])('text reads: %s', (name) => {
    const [text] = texts(drawn([label(name, 0, 0, 'text')]))
    expect(onWhite(text?.fill ?? '#ffffff')).toBeGreaterThanOrEqual(4.5)
  })
})
