import { expect, it } from 'vitest'
import { coarseGridSentence, nodesAcross } from '#domain/ground/coarse-grid.ts'
import { groundSurfaceSteps } from '#domain/ground/ground-surface.ts'
import { finishSteps } from '../../support/finish-steps.ts'

/** A bowl of 12 mm under an even net of points, 8 m apart. */
const net = Array.from({ length: 64 }, (_, at) => {
  const [east, north] = [8 * (at % 8), 8 * Math.floor(at / 8)]
  return {
    id: `P${at}`,
    eastingMetres: 500_000 + east,
    northingMetres: 310_000 + north,
    value: 12 * Math.exp(-((east - 28) ** 2 + (north - 28) ** 2) / 400),
    standardUncertainty: 0.3,
    late: false,
  }
})
const astray = net.map((point) => (point.id === 'P9' ? { ...point, eastingMetres: 520_008 } : point))
const request = {
  unit: 'mm',
  barriers: [],
  longestSideMetres: 40,
  silentRadiusMetres: 10,
  sectionLine: [],
}

it('asks for no more nodes than a site needs', () => {
  expect(nodesAcross(net)).toBe(160)
  expect(nodesAcross(astray)).toBe(480)
  expect(coarseGridSentence(net, 160)).toBeNull()
})

it('does not let one position 20 km astray draw a bowl away: lines between points are drawn, and it is named', () => {
  const made = finishSteps(
    groundSurfaceSteps({
      ...request,
      points: astray,
      method: 'kriging',
      nodes: nodesAcross(astray),
    }),
  )
  if (!made.ok) throw new Error('refused')
  expect(made.value.notes[0]).toMatch(/^No kriging: Nodes .* P9, 20000 m. Look at the points/)
  expect(Math.max(...made.value.bands.map(({ highMm }) => highMm))).toBeGreaterThan(11)
})

it.each(['natural-neighbours', 'inverse-distance'] as const)(
  'refuses the grid of %s with the same reason',
  (method) => {
    const made = finishSteps(groundSurfaceSteps({ ...request, points: astray, method, nodes: 480 }))
    expect(made).toMatchObject({
      ok: false,
      issues: [{ code: 'grid-too-coarse', message: expect.stringMatching(/P9, 20000 m/) }],
    })
  },
)

it('draws lines between points, which have no grid', () => {
  const made = finishSteps(groundSurfaceSteps({ ...request, points: astray, method: 'linear', nodes: 480 }))
  if (!made.ok) throw new Error('refused')
  expect(Math.max(...made.value.bands.map(({ highMm }) => highMm))).toBeGreaterThan(11)
})
