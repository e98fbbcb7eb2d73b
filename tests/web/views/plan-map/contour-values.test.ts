import { expect, it } from 'vitest'
import { contourValues } from '../../../../web/views/plan-map/layers/contour-values.ts'

/** On the equator, where a metre is as long either way: about 111 m a thousandth of a degree. */
const line = (value: number, ...path: [number, number][]) => ({ value, path, certain: true })
const crowd = { metresPerPixel: 1, clearPixels: 15 }

it('stands at the middle of a line where nothing is near', () => {
  const [only] = contourValues([line(5, [0, 0], [0.001, 0])], { ...crowd, symbols: [] })
  expect(only?.value).toBe(5)
  expect(only?.at[0]).toBeCloseTo(0.0005, 9)
})

it('goes along its line away from a symbol, also where the line has two corners only', () => {
  const symbol: [number, number] = [0.0005, 0]
  const [only] = contourValues([line(5, [0, 0], [0.001, 0])], { ...crowd, symbols: [symbol] })
  expect(Math.abs((only?.at[0] ?? 0) - 0.0005) * 111_320).toBeGreaterThan(15)
})

it('is left away where the whole line lies under symbols', () => {
  const symbols: [number, number][] = [0, 0.0002, 0.0004, 0.0006, 0.0008, 0.001].map((east) => [east, 0])
  expect(contourValues([line(5, [0, 0], [0.001, 0])], { ...crowd, symbols })).toEqual([])
})

it('does not stand on the value of another line', () => {
  const values = contourValues([line(5, [0, 0], [0.001, 0]), line(10, [0, 0.00002], [0.001, 0.00002])], {
    ...crowd,
    symbols: [],
  })
  const [one, other] = values
  expect(values).toHaveLength(2)
  expect(Math.abs((one?.at[0] ?? 0) - (other?.at[0] ?? 0)) * 111_320).toBeGreaterThan(15)
})
