import { describe, expect, test } from 'vitest'
import { groundMapSteps, type MapRequest } from '#domain/ground/ground-map.ts'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import { surfaceMethods } from '#domain/ground/surface-methods.ts'
import { finishSteps } from '../../support/finish-steps.ts'

const points = (change: (point: GroundPoint, at: number) => Partial<GroundPoint>): readonly GroundPoint[] =>
  Array.from({ length: 16 }, (_, at) => {
    const point = {
      id: `P${at}`,
      eastingMetres: 500_000 + (at % 4) * 10 + at * 0.3,
      northingMetres: 310_000 + Math.floor(at / 4) * 10,
      value: at % 5,
      standardUncertainty: 0.3,
      late: false,
    }
    return { ...point, ...change(point, at) }
  })

const asked = (method: MapRequest['method'], given: readonly GroundPoint[]) =>
  finishSteps(
    groundMapSteps({
      points: given,
      unit: 'mm',
      method,
      barriers: [],
      longestSideMetres: 40,
      silentRadiusMetres: 10,
      nodes: 40,
      sectionLine: [],
      aspect: 'values',
      ofHeads: false,
      at: [],
    }),
  )

describe.each(surfaceMethods)('what cannot be drawn, by %s', (method) => {
  test('coordinates in degrees are refused', () => {
    const made = asked(
      method,
      points(({ eastingMetres, northingMetres }) => ({
        eastingMetres: -30 + (eastingMetres - 500_000) / 74_500,
        northingMetres: 48 + (northingMetres - 310_000) / 111_200,
      })),
    )
    expect(made).toMatchObject({
      ok: false,
      issues: [{ message: expect.stringMatching(/degrees|longitudes/) }],
    })
  })

  test('no current value is refused', () => {
    expect(
      asked(
        method,
        points(() => ({ value: Number.NaN })),
      ).ok,
    ).toBe(false)
    expect(
      asked(
        method,
        points(() => ({ late: true })),
      ).ok,
    ).toBe(false)
  })

  test('one value everywhere is said', () => {
    const made = asked(
      method,
      points(() => ({ value: 3 })),
    )
    if (!made.ok) throw new Error('refused')
    expect(made.value.notes.join(' ')).toMatch(/All points used have one value, 3 mm/)
  })

  test('one point far off never leaves an empty plan without a word', () => {
    const made = asked(
      method,
      points((_, at) => (at === 5 ? { eastingMetres: -30, northingMetres: 48 } : {})),
    )
    if (method === 'natural-neighbours' || method === 'inverse-distance') {
      expect(made).toMatchObject({
        ok: false,
        issues: [{ message: expect.stringMatching(/P5, 590000 m\. Look at the points themselves/) }],
      })
      return
    }
    if (!made.ok) throw new Error('refused')
    const { bands, notes, pointsUsed } = made.value
    expect(bands.flatMap(({ polygons }) => polygons).length).toBeGreaterThan(0)
    expect(pointsUsed).toHaveLength(16)
    if (method !== 'linear') expect(notes[0]).toMatch(/^No kriging: .*P5, 590000 m\. Look at the points/)
  })
})
