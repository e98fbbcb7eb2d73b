import { expect, test } from 'vitest'
import { relativeTo } from '../../../web/derived/relative-displacements.ts'

const anchors = [
  { depthMetres: 0, value: 0 },
  { depthMetres: 3, value: -1.5 },
  { depthMetres: 9, value: -4 },
]

test('told from the deepest anchor, the head has moved by the whole', () => {
  expect(relativeTo(anchors, 9).map((one) => one.value)).toEqual([4, 2.5, 0])
})

test('without a value at the still place nothing is known', () => {
  expect(relativeTo([...anchors, { depthMetres: 12, value: null }], 12).map((one) => one.value)).toEqual([
    null,
    null,
    null,
    null,
  ])
})
