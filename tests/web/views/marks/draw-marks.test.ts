import { expect, test } from 'vitest'
import { drawMarks } from '../../../../web/views/marks/draw-marks.ts'
import { choosable, dot, group, label, line } from '../../../../web/views/marks/mark.ts'

const canvas = () => document.createElementNS('http://www.w3.org/2000/svg', 'svg') as SVGElement
const point = (name: string, x: number) => choosable(dot('point', x, 0, 4), name, `${name} here`)

test('the same marks twice change nothing', () => {
  const svg = canvas()
  const marks = [group('a', [line('b', 0, 0, 1, 1), label('c', 0, 0, 'text')]), point('P', 3)]
  drawMarks(svg, marks)
  const before = [...svg.querySelectorAll('*')]
  drawMarks(svg, marks)
  expect([...svg.querySelectorAll('*')]).toEqual(before)
  expect(svg.querySelector('text')?.textContent).toBe('text')
})

test('a point keeps its element, and so its focus, while others come and go and places change', () => {
  const svg = canvas()
  drawMarks(svg, [group('g', [point('P', 1), point('Q', 2)])])
  const kept = svg.querySelector('[data-choice="Q"]')
  drawMarks(svg, [group('g', [point('R', 0), point('Q', 7)])])
  expect(svg.querySelector('[data-choice="Q"]')).toBe(kept)
  expect(kept?.getAttribute('cx')).toBe('7')
  expect([...svg.querySelectorAll('[data-choice]')].map((one) => one.getAttribute('data-choice'))).toEqual([
    'R',
    'Q',
  ])
})

test('attributes and elements that are no longer said go', () => {
  const svg = canvas()
  drawMarks(svg, [dot('x', 1, 1, 2, 'says'), line('y', 0, 0, 1, 1)])
  drawMarks(svg, [{ tag: 'circle', attributes: { cx: 1 } }])
  expect(svg.innerHTML).toBe('<circle cx="1"></circle>')
})
