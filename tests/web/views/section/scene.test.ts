import { describe, expect, test } from 'vitest'
import { allMarks } from '../../../../web/views/marks/mark.ts'
import { sectionScene } from '../../../../web/views/section/scene.ts'
import { layOutSection } from '../../../../web/views/section/section-layout.ts'
import { drawn, has, section, size, tip } from './made-section.ts'

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

test('no value stands without the name of its point, and the highest level is named first', () => {
  const points = [
    tip({ point: 'PZ-1', eastingMetres: 20 }),
    tip({ point: 'PZ-2', eastingMetres: 60, standing: 'level-1' }),
    tip({ point: 'PZ-3', eastingMetres: 60.01, standing: 'level-2' }),
  ]
  const texts = drawn({ points }).flatMap((mark) => (has(mark, 'value-text') && mark.text ? [mark.text] : []))
  expect(texts.length).toBeGreaterThan(3)
  for (const text of texts) expect(text).toMatch(/^PZ-\d {2}/)
  const places = ['PZ-3', 'PZ-2', 'PZ-1'].map((name) => texts.findIndex((text) => text.startsWith(name)))
  expect(places).toEqual(places.toSorted((one, other) => one - other))
  expect(places[0]).toBe(0)
})
