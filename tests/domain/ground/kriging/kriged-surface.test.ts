import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import { type KrigedSurface, krigedSurfaceSteps } from '#domain/ground/kriging/kriged-surface.ts'
import type { KrigingOptions } from '#domain/ground/kriging/kriging-options.ts'
import type { Variogram } from '#domain/ground/kriging/variogram.ts'
import { maskReasons } from '#domain/ground/value-grid.ts'
import { accepted } from '../../../published/accepted.ts'
import { finishSteps } from '../../../support/finish-steps.ts'

const spherical: Variogram = {
  shape: 'spherical',
  partialSill: 20,
  rangeMetres: 150,
  nugget: 0,
  anisotropy: null,
}
const options: KrigingOptions = {
  unit: 'mm',
  drift: 'ordinary',
  variogram: spherical,
  barriers: [],
  grid: { origin: [1000, 2000], cellMetres: 10, columns: 21, rows: 21 },
  silentRadiusMetres: 0,
  greatestDeviation: null,
}

const point = (
  east: number,
  north: number,
  value: number | null,
  more: Partial<GroundPoint> = {},
): GroundPoint => ({
  id: `${east}/${north}`,
  eastingMetres: 1000 + east,
  northingMetres: 2000 + north,
  value,
  standardUncertainty: 0,
  late: false,
  ...more,
})

const lattice = (
  spacing: number,
  value: (east: number, north: number) => number,
  more: Partial<GroundPoint> = {},
) => {
  const points: GroundPoint[] = []
  for (let east = 0; east <= 200; east += spacing)
    for (let north = 0; north <= 200; north += spacing)
      points.push(point(east, north, value(east, north), more))
  return points
}

const nodeAt = ({ grid }: KrigedSurface, east: number, north: number) =>
  Math.round(north / grid.cellMetres) * grid.columns + Math.round(east / grid.cellMetres)

const refusal = (points: readonly GroundPoint[], more: Partial<KrigingOptions> = {}) => {
  const outcome = finishSteps(krigedSurfaceSteps(points, { ...options, ...more }))
  return outcome.ok ? null : outcome.issues[0]?.code
}

const onNodes = fc.uniqueArray(
  fc.tuple(
    fc.integer({ min: 0, max: 20 }),
    fc.integer({ min: 0, max: 20 }),
    fc.integer({ min: -50, max: 50 }),
  ),
  { minLength: 6, maxLength: 25, selector: ([e, n]) => 21 * e + n },
)

describe('any points', () => {
  test('met exactly without measurement error, nowhere a deviation that is no number', () => {
    fc.assert(
      fc.property(onNodes, (rows) => {
        const outcome = finishSteps(
          krigedSurfaceSteps(
            rows.map(([e, n, value]) => point(10 * e, 10 * n, value)),
            options,
          ),
        )
        fc.pre(outcome.ok)
        const { grid } = outcome.value
        for (const [e, n, value] of rows) {
          const node = n * 21 + e
          if (grid.mask[node] !== 0) continue
          expect(grid.values[node]).toBeCloseTo(value, 7)
          expect(grid.standardDeviations[node]).toBeLessThan(1e-3)
        }
        grid.mask.forEach((reason, node) => {
          expect(Number.isFinite(grid.values[node])).toBe(Number.isFinite(grid.edge?.inwardMetres[node]))
          if (reason === 0) expect(Number.isFinite(grid.values[node])).toBe(true)
          if (reason === 0) expect(grid.standardDeviations[node]).toBeGreaterThanOrEqual(0)
        })
      }),
      { seed: 4, numRuns: 60 },
    )
  })

  test('a value and its uncertainty scale together, and shift without one', () => {
    fc.assert(
      fc.property(onNodes, fc.integer({ min: 2, max: 1000 }), (rows, factor) => {
        const made = (scale: number, shift: number) =>
          finishSteps(
            krigedSurfaceSteps(
              rows.map(([e, n, value]) =>
                point(10 * e, 10 * n, scale * value + shift, { standardUncertainty: scale * 0.7 }),
              ),
              { ...options, variogram: { ...spherical, partialSill: 20 * scale ** 2 } },
            ),
          )
        const [plain, scaled] = [made(1, 0), made(factor, 5)]
        fc.pre(plain.ok && scaled.ok)
        plain.value.grid.values.forEach((value, node) => {
          if (plain.value.grid.mask[node] !== 0) return
          expect((scaled.value.grid.values[node] as number) / factor).toBeCloseTo(value + 5 / factor, 6)
          expect((scaled.value.grid.standardDeviations[node] as number) / factor).toBeCloseTo(
            plain.value.grid.standardDeviations[node] as number,
            6,
          )
        })
      }),
      { seed: 5, numRuns: 30 },
    )
  })
})

test('a mirrored layout gives the mirrored surface', () => {
  const bowl = (e: number, n: number) => -20 * Math.exp(-((e - 100) ** 2 + (n - 60) ** 2) / 5000)
  const { grid } = accepted(finishSteps(krigedSurfaceSteps(lattice(40, bowl), options)))
  for (let row = 0; row < 21; row++)
    for (let column = 0; column < 10; column++) {
      expect(grid.values[row * 21 + column]).toBeCloseTo(grid.values[row * 21 + 20 - column] as number, 9)
      expect(grid.standardDeviations[row * 21 + column]).toBeCloseTo(
        grid.standardDeviations[row * 21 + 20 - column] as number,
        6,
      )
    }
})

describe('barriers', () => {
  const step = (east: number) => (east < 100 ? 0 : 10)
  const wall = (from: number, to: number) =>
    [
      [
        [1099, 2000 + from],
        [1099, 2000 + to],
      ],
    ] as const

  test('a wall through the whole site lets nothing through', () => {
    const surface = accepted(
      finishSteps(krigedSurfaceSteps(lattice(20, step), { ...options, barriers: wall(-10, 210) })),
    )
    expect(surface.method).toContain('2 parts')
    surface.grid.values.forEach((value, node) => {
      if (surface.grid.mask[node] !== 0) return
      expect(value).toBeCloseTo(node % 21 < 10 ? 0 : 10, 9)
    })
  })

  test('a wall that ends inside lets less than a twentieth through, from two spacings off its end', () => {
    const surface = accepted(
      finishSteps(krigedSurfaceSteps(lattice(20, step), { ...options, barriers: wall(-10, 150) })),
    )
    expect(surface.method).toContain('the way around it')
    for (let north = 0; north <= 110; north += 10)
      for (const [east, towards] of [
        [90, 1],
        [100, -1],
      ] as const) {
        const through = towards * ((surface.grid.values[nodeAt(surface, east, north)] as number) - step(east))
        expect(through).toBeLessThan(0.5)
        expect(through).toBeGreaterThan(-0.5)
      }
  })

  test('a wall that ends inside makes no step where the ground has none', () => {
    const tilted = (east: number, north: number) => east / 20 + north / 40
    const surface = accepted(
      finishSteps(krigedSurfaceSteps(lattice(20, tilted), { ...options, barriers: wall(-10, 150) })),
    )
    surface.grid.values.forEach((value, node) => {
      if (surface.grid.mask[node] !== 0) return
      expect(Math.abs(value - tilted(10 * (node % 21), 10 * Math.floor(node / 21)))).toBeLessThan(1)
    })
  })

  test('on a fine grid of many points the same comes out beside the wall as on a coarse one', () => {
    const barriers = wall(-10, 150)
    const coarse = accepted(finishSteps(krigedSurfaceSteps(lattice(20, step), { ...options, barriers })))
    const fine = accepted(
      finishSteps(
        krigedSurfaceSteps(lattice(20, step), {
          ...options,
          barriers,
          grid: { origin: [1000, 2000], cellMetres: 2, columns: 101, rows: 101 },
        }),
      ),
    )
    for (let node = 0; node < 441; node++) {
      const same = 5 * Math.floor(node / 21) * 101 + 5 * (node % 21)
      expect(fine.grid.mask[same]).toBe(coarse.grid.mask[node])
      expect(fine.grid.values[same]).toBeCloseTo(coarse.grid.values[node] as number, 7)
      const [one, other] = [fine, coarse].map(
        ({ grid }, at) => grid.standardDeviations[at === 0 ? same : node],
      )
      expect(Math.abs((one as number) - (other as number))).toBeLessThan(0.005 * (other as number) + 1e-6)
    }
  })

  test('without the wall the step is smeared', () => {
    const surface = accepted(finishSteps(krigedSurfaceSteps(lattice(20, step), options)))
    expect(surface.grid.values[nodeAt(surface, 90, 90)]).toBeGreaterThan(2)
  })
})

describe('decisions', () => {
  const some = lattice(50, (e, n) => e / 10 - n / 20 + Math.sin(e))
  test.each([
    ['no points', [], 'no-points'],
    ['one', some.slice(0, 1), 'too-few-points'],
    ['two', some.slice(0, 2), 'too-few-points'],
    ['one line', some.slice(0, 5), 'points-on-one-line'],
    [
      'degrees',
      some.map((one) => ({
        ...one,
        eastingMetres: one.eastingMetres / 1e4,
        northingMetres: one.northingMetres / 1e4,
      })),
      'coordinates-in-degrees',
    ],
  ] as const)('%s', (_, points, code) => {
    expect(refusal(points)).toBe(code)
  })

  test('a variogram that cannot be fitted is refused with its reason', () => {
    const fit = { shapes: ['spherical', 'exponential'] as const, anisotropy: null }
    expect(refusal(some.slice(0, 7), { variogram: fit })).toBe('variogram-too-few-pairs')
    const noise = lattice(20, (e, n) => (Math.sin(12.9898 * e + 78.233 * n) * 43_758.5453) % 1)
    expect(refusal(noise, { variogram: fit })).toBe('variogram-pure-nugget')
    expect(refusal(some, { variogram: { ...spherical, rangeMetres: 0 } })).toBe('variogram-impossible')
  })

  test('values that are all the same give a flat surface with the deviation of one point', () => {
    const surface = accepted(
      finishSteps(
        krigedSurfaceSteps(
          lattice(50, () => 3, { standardUncertainty: 0.5 }),
          { ...options, variogram: { shapes: ['spherical'], anisotropy: null } },
        ),
      ),
    )
    expect(surface.method).toContain('same value')
    expect([surface.lowest, surface.highest, surface.variogram]).toEqual([3, 3, null])
    expect(surface.grid.standardDeviations[100]).toBeCloseTo(0.5, 12)
  })

  test('points at one place become their mean, and more than their uncertainty explains is said', () => {
    const twin = (value: number) => point(50, 50, value, { id: 'twin' })
    const { pointsMerged } = accepted(finishSteps(krigedSurfaceSteps([...some, twin(40)], options)))
    expect(pointsMerged[0]?.ids).toEqual(['50/50', 'twin'])
    expect(pointsMerged[0]?.reason).toContain('look at them')
  })

  test('late points and unknown values are left out and masked around, large deviations masked', () => {
    const points = [
      ...some,
      point(120, 120, 1, { id: 'late', late: true }),
      point(20, 20, Number.NaN, { id: 'none' }),
    ]
    const surface = accepted(
      finishSteps(krigedSurfaceSteps(points, { ...options, silentRadiusMetres: 15, greatestDeviation: 1.5 })),
    )
    expect(surface.pointsLeftOut.map(({ id }) => id)).toEqual(['late', 'none'])
    const reason = (east: number, north: number) =>
      maskReasons[surface.grid.mask[nodeAt(surface, east, north)] as keyof typeof maskReasons]
    expect(reason(120, 120)).toBe('near a point without a current value')
    expect(reason(70, 70)).toBe('standard deviation above the limit')
    expect(reason(50, 50)).toBe('shown')
  })

  test('a step can be left at any time', () => {
    const steps = krigedSurfaceSteps(some, options)
    expect(steps.next().done).toBe(false)
  })
})
