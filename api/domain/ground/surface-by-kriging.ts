import { accept, type Outcome } from '../outcome.ts'
import { standardDeviation } from '../statistics/spread.ts'
import { coarseGridSentence } from './coarse-grid.ts'
import { contourStep } from './contour-step.ts'
import { contoursOfGrid } from './contours-of-grid.ts'
import type { SurfaceRequest, SurfaceWithField } from './ground-surface.ts'
import { type GroundPoint, reasonToLeaveOut } from './kriging/ground-point.ts'
import { type KrigedSurface, krigedSurfaceSteps } from './kriging/kriged-surface.ts'
import type { KrigingOptions } from './kriging/kriging-options.ts'
import type { VariogramShape } from './kriging/variogram-shape.ts'
import { surfaceByLines } from './surface-by-lines.ts'
import { sectionOfGrid } from './surface-on-line.ts'
import { uncertainPieces } from './uncertain-pieces.ts'

/** By kriging, around a mean or a plane that is not known; where it is refused by straight lines, the reason first. */
export function* surfaceByKriging(
  request: SurfaceRequest,
  drift: KrigingOptions['drift'],
): Generator<number, Outcome<SurfaceWithField>> {
  const coarse = coarseGridSentence(request.points, request.nodes)
  if (coarse !== null) return surfaceByLines(request, [`No kriging: ${coarse}`])
  const steps = krigedSurfaceSteps(request.points, {
    unit: request.unit,
    drift,
    // Read far apart, points show a nugget that is only the curve drawn on to distance 0, and a narrow bowl is drawn too
    // shallow by it.
    variogram: { shapes: shapesFor(request.points), anisotropy: 'fitted', groundNugget: 'none' },
    barriers: request.barriers,
    grid: request.nodes,
    silentRadiusMetres: request.silentRadiusMetres,
    greatestDeviation: greatestDeviation(request.points),
  })
  let step = steps.next()
  for (; !step.done; step = steps.next()) yield 0.9 * step.value
  const kriged = step.value
  if (kriged.ok) {
    yield 0.9
    return accept(ofKriging(kriged.value, request, drift))
  }
  return surfaceByLines(request, [`No kriging: ${kriged.issues.map(({ message }) => message).join(' ')}`])
}

/** The smoothest shape cannot be solved through exact readings; with errors of their own it can. */
export const shapesFor = (points: readonly GroundPoint[]): readonly VariogramShape[] =>
  points.every(({ standardUncertainty }) => (standardUncertainty ?? 0) > 0)
    ? ['spherical', 'exponential', 'gaussian']
    : ['spherical', 'exponential']

/** Where the deviation is above seven tenths of the spread of the readings, the points tell little of the ground. */
export function greatestDeviation(points: readonly GroundPoint[]): number | null {
  const values = points.flatMap((point) =>
    point.value === null || reasonToLeaveOut(point) !== null ? [] : [point.value],
  )
  if (values.length < 3) return null
  const spread = standardDeviation(values)
  return spread > 0 ? 0.7 * spread : null
}

function ofKriging(
  kriged: KrigedSurface,
  { unit, points, sectionLine }: SurfaceRequest,
  drift: KrigingOptions['drift'],
): SurfaceWithField {
  const { grid, lowest, highest, notes } = kriged
  const shown = [...grid.standardDeviations.keys()].flatMap((node) =>
    grid.mask[node] === 0 ? [grid.standardDeviations[node] as number] : [],
  )
  const ordered = Float64Array.from(shown).sort()
  const typical = ordered[ordered.length >> 1] ?? 0
  const step = Number.isFinite(lowest) ? contourStep(lowest, highest, typical, unit) : null
  const limit = greatestDeviation(points)
  const contours = contoursOfGrid(kriged, step?.step ?? null)
  return {
    field: () => ({ grid, standardDeviations: grid.standardDeviations, slopeErrors: null }),
    ...contours,
    drawnBy: drawnBy(kriged, drift),
    variogram: kriged.variogram,
    section: sectionOfGrid(grid, grid.standardDeviations, sectionLine),
    unit,
    lines: contours.lines.flatMap(({ level, points: line }) =>
      step === null
        ? [{ level, points: line, certain: false }]
        : uncertainPieces(line, level, grid, step.step / 2),
    ),
    step,
    deviation: ordered.length === 0 ? null : { least: ordered[0] as number, most: ordered.at(-1) as number },
    notes: [
      ...notes,
      ...(step === null && Number.isFinite(lowest)
        ? [
            `The surface is flat within twice its typical standard deviation, ${Number(typical.toPrecision(2))} ${unit}: no contour can be told.`,
          ]
        : []),
      ...(limit === null
        ? []
        : [
            `Nothing is shown where the standard deviation is above ${Number(limit.toPrecision(2))} ${unit}.`,
          ]),
    ],
    check: kriged.check,
  }
}

function drawnBy({ variogram }: KrigedSurface, drift: KrigingOptions['drift']): string {
  const around = drift === 'universal' ? 'kriging around a plane' : 'kriging'
  const anisotropy = variogram?.anisotropy
  if (!anisotropy) return around
  const bearing = String(Math.round(anisotropy.azimuthDegrees) % 180).padStart(3, '0')
  return `${around}, alike farthest along ${bearing}° (${anisotropy.ratio.toFixed(2)} of it across)`
}
