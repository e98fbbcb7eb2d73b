import type { SitePoint } from '../../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import { areaAndCentroid, convexHull, inwardOfHull } from '../convex-hull.ts'
import { cutAround, silentPlaces } from '../silent-places.ts'
import { type GridEdge, type GridPlace, gridOver, type ValueGrid } from '../value-grid.ts'
import { type GroundPoint, type LeftOutPoint, reasonToLeaveOut } from './ground-point.ts'
import { krigeLattice, type Lattice } from './krige-lattice.ts'
import { buildSystem, type KrigingPoint, type KrigingSystem } from './kriging-system.ts'
import { type GroundPart, partGround } from './parted-ground.ts'
import { type Places, placesOf } from './places-of-points.ts'
import { checkSurface, type SurfaceCheck } from './surface-check.ts'
import { type Anisotropy, isotropicAxes, type Variogram } from './variogram.ts'
import { variogramForPlaces } from './variogram-for-places.ts'
import type { VariogramShape } from './variogram-shape.ts'

export interface KrigingOptions {
  /** Of the values, as people read it. */
  readonly unit: string
  /** A constant mean that is not known, or a plane that is not known. */
  readonly drift: 'ordinary' | 'universal'
  /** Given, or fitted with the best of some shapes. */
  readonly variogram:
    | Variogram
    | {
        readonly shapes: readonly VariogramShape[]
        /** `fitted`: found where it is justified, else none. */
        readonly anisotropy: Anisotropy | null | 'fitted'
        /** Left out: fitted. `none`: what points differ by close together is their own error alone, as of ground that is one body. */
        readonly groundNugget?: 'none'
      }
  /** Lines that the ground moves apart at; no estimate crosses them. */
  readonly barriers: readonly (readonly SitePoint[])[]
  /** A grid, or how many nodes across the longer side of the points' box. */
  readonly grid: GridPlace | number
  /** Around a point without a current value nothing is shown; 0: no such radius. */
  readonly silentRadiusMetres: number
  /** Where the standard deviation is above it nothing is shown; null: no limit. */
  readonly greatestDeviation: number | null
}

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
  const values = new Float64Array(columns * rows).fill(Number.NaN)
  const standardDeviations = new Float64Array(columns * rows).fill(Number.NaN)
  const mask = new Uint8Array(columns * rows).fill(1)
  const inwardMetres = new Float64Array(columns * rows).fill(Number.NaN)
  const partOf = new Uint8Array(columns * rows)
  const solved: { system: KrigingSystem; ids: readonly (readonly string[])[] }[] = []
  for (const [index, part] of parts.entries()) {
    const names = part.indices.flatMap((at) => places.ids[at] ?? [])
    if (isThin(part.hull, places.extentMetres)) {
      notes.push(
        `Parted from the rest by a barrier, ${names.join(', ')} ${names.length === 1 ? 'stands' : 'stand'} alone or on one line: nothing is drawn on that side.`,
      )
      continue
    }
    const wanted = nodesOf(part, lattice, mask, inwardMetres, 1e-9 * places.extentMetres)
    for (let node = 0; node < wanted.length; node++) if (wanted[node] !== 0) partOf[node] = index
    if (flatDeviation !== null) {
      wanted.forEach((want, node) => {
        if (!want) return
        values[node] = places.places[0]?.value as number
        standardDeviations[node] = flatDeviation
      })
      continue
    }
    const choice = {
      variogram: variogram as Variogram,
      drift: options.drift === 'universal' ? ('plane' as const) : ('mean' as const),
      farthestMetres: 2 * farthestOf(part.places, lattice),
      placeMetres: Math.max(1e-6 * places.extentMetres, 1e-6),
      ways: part.ways,
    }
    const withSides = buildSystem(part.places, { ...choice, sides: part.sides })
    // Too few places on one side of a barrier's end to tell its mean: both share one.
    const outcome = withSides.ok ? withSides : buildSystem(part.places, choice)
    if (!outcome.ok) return outcome
    const system = outcome.value
    if (system.addedVariance > 0)
      notes.push(
        `Ways around the end of a barrier gave covariances that do not fit together; a variance of ${figure(system.addedVariance)} ${options.unit}² was added to each reading to mend them, so that readings there are met only within it.`,
      )
    solved.push({ system, ids: part.indices.map((at) => places.ids[at] ?? []) })
    const steps = krigeLattice(system, lattice, wanted)
    let step = steps.next()
    for (; !step.done; step = steps.next()) yield (index + step.value) / parts.length
    const estimates = step.value
    for (let node = 0; node < wanted.length; node++) {
      if (wanted[node] === 0) continue
      values[node] = estimates.values[node] as number
      standardDeviations[node] = Math.sqrt(estimates.variances[node] as number)
      if (!Number.isNaN(standardDeviations[node])) continue
      if (mask[node] === 0) mask[node] = 5
      inwardMetres[node] = Number.NaN
    }
  }
  if (solved.length === 0 && flatDeviation === null)
    return reject({
      code: 'surface-empty',
      value: String(used.length),
      expected: 'three places on one side of a barrier',
      message: `Barriers leave no side with three places or more that are not on one line (${used.length} points), so nothing can be drawn. Look at the points themselves.`,
    })
  const silent = silentPlaces(points, 1e-6 * places.extentMetres)
  cutAround(silent, options.silentRadiusMetres, place, mask, inwardMetres)
  const limit = options.greatestDeviation
  if (limit !== null)
    for (let node = 0; node < mask.length; node++) {
      if (Number.isNaN(inwardMetres[node])) continue
      // By variance, which runs straighter than its root.
      const share = 1 - ((standardDeviations[node] as number) / limit) ** 2
      if (mask[node] === 0 && share < 0) mask[node] = 3
      inwardMetres[node] = Math.min(inwardMetres[node] as number, share * places.extentMetres)
    }
  const edge: GridEdge = { inwardMetres, part: parts.length > 1 ? partOf : null }
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (let node = 0; node < mask.length; node++)
    if (mask[node] === 0) {
      lowest = Math.min(lowest, values[node] as number)
      highest = Math.max(highest, values[node] as number)
    }
  if (!(lowest <= highest)) {
    notes.push(
      'No node of the grid is shown: all lie outside the points, near points without a current value, or where the deviation is above the limit.',
    )
    lowest = Number.NaN
    highest = Number.NaN
  }
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
    lowest,
    highest,
  })
}

function refuseLayout({ places, extentMetres }: Places): Outcome<never> | null {
  const count = places.length
  if (count < 3)
    return reject({
      code: 'too-few-points',
      value: String(count),
      expected: 'at least 3 places',
      message:
        count === 1
          ? 'There is one place with a value: it tells nothing of the ground beside it. Read the point itself.'
          : 'There are two places with a value: they give a line between them, not a surface. Compare the two points.',
    })
  if (!isThin(convexHull(places.map(({ east, north }) => [east, north] as const)), extentMetres)) return null
  return reject({
    code: 'points-on-one-line',
    value: String(count),
    expected: 'points on both sides of a line',
    message: `All ${count} places lie on one line, so across it nothing is known and no surface is drawn. Draw them as a profile along that line, or add points beside it.`,
  })
}

const isThin = (hull: readonly (readonly [number, number])[], extentMetres: number) =>
  hull.length < 3 || areaAndCentroid(hull).area <= 1e-6 * extentMetres ** 2

function boxOf({ places, origin }: Places) {
  const east = places.map((place) => place.east + origin[0])
  const north = places.map((place) => place.north + origin[1])
  return {
    low: [Math.min(...east), Math.min(...north)] as const,
    high: [Math.max(...east), Math.max(...north)] as const,
  }
}

/**
 * Nodes to solve for a part: in its hull and to be reached, and those just beyond, up to which the edge is drawn.
 * Marks them shown, and those not to be reached.
 */
function nodesOf(
  part: GroundPart,
  lattice: Lattice,
  mask: Uint8Array,
  inwardMetres: Float64Array,
  slack: number,
): Uint8Array {
  const wanted = new Uint8Array(mask.length)
  const beside = 1.5 * Math.max(lattice.eastStepMetres, lattice.northStepMetres)
  for (let node = 0; node < mask.length; node++) {
    if (mask[node] === 0) continue
    const [east, north] = placeOfNode(lattice, node)
    const inward = inwardOfHull(part.hull, [east, north])
    if (inward < -beside) continue
    const isInside = inward >= -slack
    // Beyond the hulls of two parts, a node is of the nearer.
    if (!isInside && inward <= (inwardMetres[node] as number)) continue
    if (part.reaches(east, north)) {
      wanted[node] = 1
      inwardMetres[node] = inward
      if (isInside) mask[node] = 0
    } else if (isInside) mask[node] = 4
  }
  return wanted
}

function placeOfNode({ east, north, eastStepMetres, northStepMetres, columns }: Lattice, node: number) {
  const column = node % columns
  return [east + column * eastStepMetres, north + ((node - column) / columns) * northStepMetres] as const
}

function farthestOf(
  places: readonly KrigingPoint[],
  { east, north, eastStepMetres, northStepMetres, columns, rows }: Lattice,
) {
  const farEast = Math.max(Math.abs(east), Math.abs(east + columns * eastStepMetres))
  const farNorth = Math.max(Math.abs(north), Math.abs(north + rows * northStepMetres))
  return places.reduce(
    (most, place) =>
      Math.max(most, Math.hypot(farEast + Math.abs(place.east), farNorth + Math.abs(place.north))),
    1,
  )
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
