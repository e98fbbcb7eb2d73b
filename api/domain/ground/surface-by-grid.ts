import { accept, type Outcome, reject } from '../outcome.ts'
import { coarseGridSentence } from './coarse-grid.ts'
import { contoursOfGrid } from './contours-of-grid.ts'
import type { SurfaceRequest, SurfaceWithField } from './ground-surface.ts'
import { type GridMethod, interpolatedGridSteps } from './interpolated-grid.ts'
import { cutAround, silentPlaces } from './silent-places.ts'
import { sectionOfGrid } from './surface-on-line.ts'
import { gridOver, type ValueGrid } from './value-grid.ts'

/** By a method that needs no variogram and states no deviation; all its lines are dashed. */
export function* surfaceByGrid(
  request: SurfaceRequest,
  how: GridMethod,
): Generator<number, Outcome<SurfaceWithField>> {
  const coarse = coarseGridSentence(request.points, request.nodes)
  if (coarse !== null) return reject({ code: 'grid-too-coarse', message: coarse })
  const steps = interpolatedGridSteps(request.points, how, gridOfPoints(request), request.unit)
  let step = steps.next()
  for (; !step.done; step = steps.next()) yield 0.9 * step.value
  const made = step.value
  if (!made.ok) return made
  const { grid, ...rest } = made.value
  const shown = withoutSilent(grid, request)
  const contours = contoursOfGrid({ ...rest, grid: shown }, null)
  return accept({
    field: () => ({ grid: shown, standardDeviations: null, slopeErrors: null }),
    ...contours,
    drawnBy: how === 'inverse distance' ? 'inverse distance (fallback)' : how,
    variogram: null,
    // Nothing says how far these lines may run elsewhere, so none is drawn as if that were known.
    lines: contours.lines.map((line) => ({ ...line, certain: false })),
    section: sectionOfGrid(shown, null, request.sectionLine),
    unit: request.unit,
    step: null,
    deviation: null,
    notes: [
      'The method states no deviation, so all its lines are dashed.',
      ...(request.barriers.length > 0
        ? ['Barriers are not heeded by this method: it is drawn across walls.']
        : []),
    ],
    check: null,
  })
}

/** The grid with nothing shown around points without a current value. */
function withoutSilent(grid: ValueGrid, { points, silentRadiusMetres }: SurfaceRequest): ValueGrid {
  const mask = grid.mask.slice()
  const inwardMetres =
    grid.edge?.inwardMetres.slice() ?? Float64Array.from(mask, (code) => (code === 0 ? 1 : NaN))
  cutAround(silentPlaces(points, 1e-6 * silentRadiusMetres), silentRadiusMetres, grid, mask, inwardMetres)
  return { ...grid, mask, edge: { inwardMetres, part: null } }
}

function gridOfPoints({ points, nodes }: SurfaceRequest) {
  const placed = points.filter(
    ({ eastingMetres, northingMetres, value }) =>
      Number.isFinite(eastingMetres) && Number.isFinite(northingMetres) && value !== null,
  )
  const [east, north] = [
    placed.map(({ eastingMetres }) => eastingMetres),
    placed.map(({ northingMetres }) => northingMetres),
  ]
  return gridOver(
    { low: [Math.min(...east), Math.min(...north)], high: [Math.max(...east), Math.max(...north)] },
    nodes,
  )
}
