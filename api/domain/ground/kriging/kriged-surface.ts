import { accept, type Outcome, reject } from '../../outcome.ts'
import { cutAround, silentPlaces } from '../silent-places.ts'
import { type GridEdge, gridOver, type ValueGrid } from '../value-grid.ts'
import { type GroundPoint, type LeftOutPoint, reasonToLeaveOut } from './ground-point.ts'
import type { Lattice } from './krige-lattice.ts'
import { krigePart } from './krige-part.ts'
import type { KrigingOptions } from './kriging-options.ts'
import type { KrigingSystem } from './kriging-system.ts'
import { type GroundPart, partGround } from './parted-ground.ts'
import { type Places, placesOf } from './places-of-points.ts'
import { isThin, refuseLayout } from './points-on-one-line.ts'
import { hideUncertain, rangeShown } from './shown-nodes.ts'
import { checkSurface, type SurfaceCheck } from './surface-check.ts'
import { createNodes, fillEstimates, fillFlat, takeNodesOfPart } from './surface-nodes.ts'
import { isotropicAxes, type Variogram } from './variogram.ts'
import { variogramForPlaces } from './variogram-for-places.ts'

export interface DeviationGrid extends ValueGrid {
  /** Of the ground's value at each node, without what an instrument would add; NaN with its value. */
  readonly standardDeviations: Float64Array
}

export interface KrigedSurface {
  readonly unit: string
  readonly grid: DeviationGrid
  /** Whole sentences: how it was made, and what it rests on. */
  readonly method: string
  /** Null for a flat surface, of values that are all the same. */
  readonly variogram: Variogram | null
  readonly pointsUsed: readonly string[]
  readonly pointsLeftOut: readonly LeftOutPoint[]
  readonly pointsMerged: readonly { readonly ids: readonly string[]; readonly reason: string }[]
  /** Null for a flat surface. */
  readonly check: SurfaceCheck | null
  /** What a person must know before relying on it, whole sentences. */
  readonly notes: readonly string[]
  /** Of the nodes shown; NaN where none is. */
  readonly lowest: number
  readonly highest: number
}

/**
 * A surface through the current values of points, with its standard deviation, by kriging. In steps that each take
 * some milliseconds and yield the share done, so that a worker can look up between them and stop. Refused, with the
 * reason, for fewer than three places, places on one line, coordinates in degrees, and variograms that cannot be.
 */
export function* krigedSurfaceSteps(
  points: readonly GroundPoint[],
  options: KrigingOptions,
): Generator<number, Outcome<KrigedSurface>> {
  const pointsLeftOut: LeftOutPoint[] = []
  const used: (GroundPoint & { readonly value: number })[] = []
  for (const point of points) {
    const reason = reasonToLeaveOut(point)
    if (reason === null) used.push(point as GroundPoint & { readonly value: number })
    else pointsLeftOut.push({ id: point.id, reason })
  }
  const placed = placesOf(used, options.unit)
  if (!placed.ok) return placed
  const places = placed.value
  const refusal = refuseLayout(places)
  if (refusal) return refusal
  const fitted = variogramForPlaces(places.places, options)
  if (!fitted.ok) return fitted
  const { variogram, sentence, flatDeviation } = fitted.value
  const notes: string[] = []
  if (used.some(({ standardUncertainty }) => standardUncertainty === null))
    notes.push(
      'Some points have no known standard uncertainty; their readings are taken as exact, so deviations near them are too small.',
    )
  const place = typeof options.grid === 'number' ? gridOver(boxOf(places), options.grid) : options.grid
  const { columns, rows, cellMetres } = place
  const lattice: Lattice = {
    east: place.origin[0] - places.origin[0],
    north: place.origin[1] - places.origin[1],
    eastStepMetres: cellMetres,
    northStepMetres: cellMetres,
    columns,
    rows,
  }
  const barriers = options.barriers.map((line) =>
    line.map(([e, n]) => [e - places.origin[0], n - places.origin[1]] as const),
  )
  const parts = partGround(
    places.places,
    barriers,
    isotropicAxes(variogram?.anisotropy ?? null),
    places.extentMetres,
  )
  const nodes = createNodes(columns * rows)
  const solved: { system: KrigingSystem; ids: readonly (readonly string[])[] }[] = []
  for (const [index, part] of parts.entries()) {
    const names = part.indices.flatMap((at) => places.ids[at] ?? [])
    if (isThin(part.hull, places.extentMetres)) {
      notes.push(
        `Parted from the rest by a barrier, ${names.join(', ')} ${names.length === 1 ? 'stands' : 'stand'} alone or on one line: nothing is drawn on that side.`,
      )
      continue
    }
    const wanted = takeNodesOfPart(nodes, part, index, lattice, 1e-9 * places.extentMetres)
    if (variogram === null) {
      fillFlat(nodes, wanted, places.places[0]?.value as number, flatDeviation as number)
      continue
    }
    const steps = krigePart(part, lattice, wanted, variogram, options.drift, places.extentMetres)
    let step = steps.next()
    for (; !step.done; step = steps.next()) yield (index + step.value) / parts.length
    if (!step.value.ok) return step.value
    const { system, estimates } = step.value.value
    if (system.addedVariance > 0)
      notes.push(
        `Ways around the end of a barrier gave covariances that do not fit together; a variance of ${figure(system.addedVariance)} ${options.unit}² was added to each reading to mend them, so that readings there are met only within it.`,
      )
    solved.push({ system, ids: part.indices.map((at) => places.ids[at] ?? []) })
    fillEstimates(nodes, wanted, estimates)
  }
  if (solved.length === 0 && variogram !== null)
    return reject({
      code: 'surface-empty',
      value: String(used.length),
      expected: 'three places on one side of a barrier',
      message: `Barriers leave no side with three places or more that are not on one line (${used.length} points), so nothing can be drawn. Look at the points themselves.`,
    })
  const silent = silentPlaces(points, 1e-6 * places.extentMetres)
  cutAround(silent, options.silentRadiusMetres, place, nodes.mask, nodes.inwardMetres)
  if (options.greatestDeviation !== null) hideUncertain(nodes, options.greatestDeviation, places.extentMetres)
  const range = rangeShown(nodes)
  if (range === null)
    notes.push(
      'No node of the grid is shown: all lie outside the points, near points without a current value, or where the deviation is above the limit.',
    )
  const { values, standardDeviations, mask, inwardMetres, part } = nodes
  const edge: GridEdge = { inwardMetres, part: parts.length > 1 ? part : null }
  return accept({
    unit: options.unit,
    grid: { ...place, values, standardDeviations, mask, edge },
    method:
      `${options.drift === 'universal' ? 'Universal kriging (a plane that is not known)' : 'Ordinary kriging'}. ${sentence} ${barrierSentence(barriers.length, parts)}`.trim(),
    variogram,
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut,
    pointsMerged: places.merged,
    check: solved.length > 0 ? checkSurface(solved) : null,
    notes,
    lowest: range?.lowest ?? Number.NaN,
    highest: range?.highest ?? Number.NaN,
  })
}

function boxOf({ places, origin }: Places) {
  const east = places.map((place) => place.east + origin[0])
  const north = places.map((place) => place.north + origin[1])
  return {
    low: [Math.min(...east), Math.min(...north)] as const,
    high: [Math.max(...east), Math.max(...north)] as const,
  }
}

function barrierSentence(barriers: number, parts: readonly GroundPart[]): string {
  if (barriers === 0) return ''
  const around = parts.some(({ ways }) => ways !== null)
  return `${barriers} ${barriers === 1 ? 'barrier' : 'barriers'} kept apart: ${
    parts.length > 1
      ? `the ground falls into ${parts.length} parts, each solved by itself`
      : 'the ground stays in one part'
  }${around ? '; around the end of a barrier, distances are those of the way around it, and each side has a mean of its own that fades out there' : ''}.`
}

const figure = (value: number) => String(Number(value.toPrecision(3)))
