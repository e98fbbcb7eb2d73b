import { describe, expect, test } from 'vitest'
import { groundSurfaceSteps, type SurfaceRequest } from '#domain/ground/ground-surface.ts'
import { surfaceMethods } from '#domain/ground/surface-methods.ts'
import { uncertainPieces } from '#domain/ground/uncertain-pieces.ts'
import { finishSteps } from '../../support/finish-steps.ts'

/** A bowl of 20 mm around (50, 50), read on a grid with a scatter that its uncertainty states. */
const points = Array.from({ length: 49 }, (_, at) => {
  const [eastingMetres, northingMetres] = [(at % 7) * 16, Math.floor(at / 7) * 16]
  const away = Math.hypot(eastingMetres - 50, northingMetres - 50)
  return {
    id: `SP-${at}`,
    eastingMetres,
    northingMetres,
    value: 20 * Math.exp(-((away / 25) ** 2) / 2) + 0.3 * Math.sin(at * 7.3),
    standardUncertainty: 0.3,
    late: false,
  }
})
const request = (change: Partial<SurfaceRequest> = {}): SurfaceRequest => ({
  points,
  unit: 'mm',
  method: 'kriging',
  barriers: [],
  longestSideMetres: 40,
  silentRadiusMetres: 5,
  nodes: 60,
  sectionLine: [],
  ...change,
})
const made = (change: Partial<SurfaceRequest> = {}) => {
  const outcome = finishSteps(groundSurfaceSteps(request(change)))
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join(' '))
  return outcome.value
}

describe('a surface on the plan', () => {
  test.each(surfaceMethods)('by %s shows the bowl, its lines between its bands', (method) => {
    const { bands, lines, pointsUsed, method: sentence } = made({ method })
    expect(pointsUsed).toHaveLength(49)
    expect(sentence.length).toBeGreaterThan(20)
    expect(Math.max(...bands.map(({ highMm }) => highMm))).toBeGreaterThan(15)
    expect(new Set(lines.map(({ level }) => level)).size).toBeGreaterThan(3)
  })

  test('a bowl narrower than the points stand apart is drawn as deep as it was read', () => {
    const narrow = points.map((point) => ({ ...point, value: point.id === 'SP-24' ? 30 : point.value / 4 }))
    const { bands } = made({ points: narrow })
    expect(Math.max(...bands.map(({ highMm }) => highMm))).toBeGreaterThan(26)
  })

  test('only kriging states a deviation; its lines are no finer than it warrants', () => {
    const kriged = made()
    expect(kriged.deviation?.least).toBeGreaterThan(0)
    expect(kriged.step?.reason).toContain('Lines every')
    expect(kriged.check?.points).toHaveLength(49)
    for (const method of ['linear', 'natural-neighbours', 'inverse-distance'] as const)
      expect(made({ method })).toMatchObject({ deviation: null, check: null })
    expect(made({ method: 'inverse-distance' }).method).toContain('Fallback')
  })

  test('kriging that is refused is not replaced in silence', () => {
    const level = points.slice(0, 4).map((point, at) => ({ ...point, northingMetres: 20 * (at % 2) }))
    const surface = made({ points: level })
    if (surface.deviation !== null) throw new Error('the variogram of four points was fitted')
    expect(surface.notes[0]).toContain('No kriging:')
  })

  test('around a plane, ground that tilts as a whole is drawn through what only the plane explains', () => {
    const tilted = points.map((point) => ({
      ...point,
      value: (point.value as number) + 0.4 * point.eastingMetres - 0.2 * point.northingMetres,
    }))
    const surface = made({ points: tilted, method: 'kriging-plane' })
    expect(surface.method).toContain('Universal kriging (a plane that is not known)')
    expect(surface.drawnBy).toContain('kriging around a plane')
    expect(Math.max(...surface.bands.map(({ highMm }) => highMm))).toBeGreaterThan(33)
  })

  test('a plane through points on one line is refused in words', () => {
    const line = points.slice(0, 7).map((point) => ({ ...point, northingMetres: 4000 }))
    const outcome = finishSteps(groundSurfaceSteps(request({ points: line, method: 'kriging-plane' })))
    expect(outcome.ok ? '' : outcome.issues[0]?.message).toMatch(/No kriging: All 7 places lie on one line/)
  })

  test('a trough is drawn as long as it is, and the account says so with figures', () => {
    const trough = points.map((point) => {
      const across = (point.eastingMetres - point.northingMetres) / Math.SQRT2
      return { ...point, value: 20 * Math.exp(-((across / 12) ** 2) / 2) + 0.3 * Math.sin(point.value * 99) }
    })
    const surface = made({ points: trough })
    expect(surface.variogram?.anisotropy?.azimuthDegrees).toBeGreaterThan(35)
    expect(surface.variogram?.anisotropy?.azimuthDegrees).toBeLessThan(55)
    expect(surface.method).toMatch(/farthest along bearing 0\d\d° and 0\.\d\d of its range across it/)
    expect(surface.drawnBy).toMatch(/kriging, alike farthest along 0\d\d°/)
    expect(made().method).toContain('alike in every direction')
    expect(made().variogram?.anisotropy).toBeNull()
  })

  test('a late point is not bridged, and what is silent is said', () => {
    const silent = points.map((point) => (point.id === 'SP-24' ? { ...point, late: true } : point))
    const surface = made({ points: silent })
    expect(surface.pointsLeftOut).toEqual([{ id: 'SP-24', reason: expect.stringContaining('late') }])
    expect(surface.mask.length).toBeGreaterThan(1)
  })

  test.each([
    ['none', []],
    ['one', points.slice(0, 1)],
    ['two', points.slice(0, 2)],
    ['on one line', points.slice(0, 7)],
  ])('points: %s give a refusal with its reason, by every method', (_, some) => {
    for (const method of surfaceMethods) {
      const outcome = finishSteps(groundSurfaceSteps(request({ points: some, method })))
      expect(outcome.ok).toBe(false)
      if (!outcome.ok) expect(outcome.issues[0]?.message.length).toBeGreaterThan(30)
    }
  })

  test('where nothing can be drawn, every reason is told: of kriging and of straight lines', () => {
    const apart = points.slice(0, 3).map((point, at) => ({ ...point, northingMetres: 300 * (at % 2) }))
    const outcome = finishSteps(groundSurfaceSteps(request({ points: apart })))
    const said = outcome.ok ? '' : outcome.issues.map(({ message }) => message).join(' ')
    expect(said).toContain('No kriging')
    expect(said).toContain('over 40 m')
  })

  test('along a line it has a value and a deviation, and nothing beyond the outermost points', () => {
    const { section, volume, steepest } = made({
      sectionLine: [
        [-20, 50],
        [50, 50],
        [50, 96],
      ],
    })
    expect(section[0]).toEqual({ chainageMetres: 0, value: null, standardDeviation: null })
    const middle = section.find(({ chainageMetres }) => chainageMetres === 70)
    expect(middle?.value).toBeGreaterThan(15)
    expect(middle?.standardDeviation).toBeGreaterThan(0)
    expect(section.at(-1)?.chainageMetres).toBe(116)
    expect(volume.above).toBeGreaterThan(1000)
    expect(steepest?.perMetre).toBeGreaterThan(0.2)
    for (const method of ['linear', 'natural-neighbours'] as const)
      expect(
        made({
          method,
          sectionLine: [
            [50, 50],
            [50, 96],
          ],
        }).section[0]?.value,
      ).toBeGreaterThan(15)
  })

  test('all equal is flat: no contour is invented', () => {
    const level = points.map((point) => ({ ...point, value: 7 }))
    const surface = made({ points: level })
    expect(surface.lines).toEqual([])
    expect(surface.notes.join(' ')).toMatch(/flat|same/)
  })
})

test('a line is cut where the deviation passes the limit, without losing a piece of it', () => {
  const grid = {
    origin: [0, 0] as const,
    cellMetres: 1,
    columns: 5,
    rows: 2,
    values: new Float64Array(10),
    mask: new Uint8Array(10),
    standardDeviations: Float64Array.of(1, 1, 5, 1, 1, 1, 1, 5, 1, Number.NaN),
  }
  const line = [0, 1, 2, 3, 4].map((east) => [east, 0.2] as const)
  const pieces = uncertainPieces(line, 10, grid, 2)
  expect(pieces.map(({ certain, points: of }) => [certain, of.map(([east]) => east)])).toEqual([
    [true, [0, 1]],
    [false, [1, 2]],
    [true, [2, 3, 4]],
  ])
  expect(
    uncertainPieces(
      [
        [4, 1],
        [4, 1.1],
      ],
      10,
      grid,
      2,
    )[0]?.certain,
  ).toBe(false)
})
