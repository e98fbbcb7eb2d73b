import { expect, test } from 'vitest'
import { runChain } from '#domain/reduction/run-chain.ts'

const steps = [
  { kind: 'linear', parameters: { factor: 2, offset: 1, unit: 'kPa' } },
  { kind: 'thermal', parameters: { factor: 1, reference: 0 } },
  { kind: 'barometric', parameters: { reference: 100, maximumAgeMinutes: 60 } },
  { kind: 'zero', parameters: { value: 3 } },
] as const

test('each line is given what the line before it gave', () => {
  const { lines, value } = runChain(10, steps, { temperatureDegC: 5, barometerKpa: 101 })
  expect(lines.map(({ x, y }) => [x, y])).toEqual([
    [10, 21],
    [21, 26],
    [26, 25],
    [25, 22],
  ])
  expect(value).toBe(22)
})

test('a skipped step carries its x on and says that it was skipped', () => {
  const { lines } = runChain(10, steps, { temperatureDegC: null, barometerKpa: 101 })
  expect(lines[1]).toMatchObject({ x: 21, y: 21, skipped: true })
})

test('the chain ends at the step that has no value', () => {
  const { lines, value } = runChain(10, steps, { temperatureDegC: 5, barometerKpa: null })
  expect(lines).toHaveLength(3)
  expect(lines.at(-1)).toMatchObject({ x: 26, y: null })
  expect(value).toBeNull()
})
