import { expect, test } from 'vitest'
import { pointResidualSteps, type ResidualRequest } from '#domain/ground/point-residuals.ts'
import { randomFrom } from '../statistics/random-values.ts'

/** A gentle bowl read on a grid of 7 by 6 points ten metres apart, with an error of 0.3 mm. */
function bowl(more: (east: number, north: number) => number = () => 0) {
  const { gaussian } = randomFrom(41)
  return Array.from({ length: 42 }, (_, place) => {
    const [east, north] = [10 * (place % 7), 10 * Math.floor(place / 7)]
    const value = 20 * Math.exp(-((east - 30) ** 2 + (north - 25) ** 2) / 800)
    return {
      id: `M-${place}`,
      eastingMetres: east,
      northingMetres: north,
      value: value + 0.3 * gaussian() + more(east, north),
      standardUncertainty: 0.3,
      late: false,
    }
  })
}

function worked(request: ResidualRequest) {
  const steps = pointResidualSteps(request)
  let step = steps.next()
  while (!step.done) step = steps.next()
  return step.value
}
const residualsOf = (points: ResidualRequest['points'], barriers: ResidualRequest['barriers'] = []) => {
  const outcome = worked({ points, unit: 'mm', barriers })
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

test('a point that reads more than all others say stands first, with its sign and error', () => {
  const { points } = residualsOf(bowl((east, north) => (east === 20 && north === 20 ? 7 : 0)))
  const [first] = points
  expect(first?.ids).toEqual(['M-16'])
  expect(first?.residual).toBeGreaterThan(4)
  expect(first?.standardised).toBeGreaterThan(2)
  expect(first?.residual).toBeCloseTo((first?.observed ?? 0) - (first?.estimate ?? 0), 12)
  expect(first?.standardError).toBeCloseTo((first?.residual ?? 0) / (first?.standardised ?? 1), 12)
  // The reading's own error is in it, so it is never below that.
  for (const { standardError, standardised } of points)
    if (standardised !== 0) expect(standardError).toBeGreaterThan(0.3)
})

test('a constant added to all changes no residual', () => {
  const plain = residualsOf(bowl())
  const raised = residualsOf(bowl(() => 250))
  plain.points.forEach(({ ids, residual }) => {
    const other = raised.points.find((one) => one.ids[0] === ids[0])
    expect(other?.residual).toBeCloseTo(residual, 3)
  })
})

test('what stands across a wall says nothing of a point', () => {
  const step = (east: number) => (east > 35 ? 600 : 0)
  const open = residualsOf(bowl(step))
  const walled = residualsOf(bowl(step), [
    [
      [35, -20],
      [35, 80],
    ],
  ])
  const beside = ({ points }: typeof open) =>
    Math.max(
      ...points
        .filter(({ ids }) => ['M-17', 'M-18', 'M-24', 'M-25'].includes(ids[0] as string))
        .map(({ residual }) => Math.abs(residual)),
    )
  expect(beside(walled)).toBeLessThan(beside(open) / 3)
})

test('two points are refused in words', () => {
  const outcome = worked({ points: bowl().slice(0, 2), unit: 'mm', barriers: [] })
  expect(outcome.ok).toBe(false)
  expect(outcome.ok ? '' : outcome.issues[0]?.message).toContain('two places')
})
