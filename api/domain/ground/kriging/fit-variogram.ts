import { accept, type Outcome, reject } from '../../outcome.ts'
import { empiricalVariogram, type PlacedValue, type VariogramBin } from './empirical-variogram.ts'
import { type Anisotropy, isotropicAxes, type Variogram } from './variogram.ts'
import { type VariogramShape, variogramShare } from './variogram-shape.ts'

export interface VariogramFit {
  readonly variogram: Variogram
  readonly bins: readonly VariogramBin[]
  /** Weighted sum of squares of the fit, weights pairs over distance squared. */
  readonly weightedSquares: number
  /** Whole sentence. */
  readonly sentence: string
}

export interface FitChoice {
  readonly shapes: readonly VariogramShape[]
  readonly anisotropy: Anisotropy | null
  /** Mean of the points' own error variances: that part of the nugget is theirs and not the ground's. */
  readonly errorVariance: number
  /** True: the ground itself has no nugget, all of it is the points' own error. Left out: it is fitted. */
  readonly withoutNugget?: boolean | undefined
}

/** Fewer pairs than this do not show a shape. */
const fewestPairs = 30

/**
 * Fits nugget, partial sill and range to the empirical variogram by least squares with weights pairs / distance²; the
 * shape of least sum is taken. Neither nugget nor sill can be below 0. Refused with the reason where there are too few
 * pairs, where nothing varies, or where likeness does not fall with distance (nugget alone).
 */
export function fitVariogram(places: readonly PlacedValue[], choice: FitChoice): Outcome<VariogramFit> {
  const [ue, un, ve, vn] = isotropicAxes(choice.anisotropy)
  const turned = places.map(({ east, north, value }) => ({
    east: ue * east + un * north,
    north: ve * east + vn * north,
    value,
  }))
  const diagonal = diagonalOf(turned)
  const bins = empiricalVariogram(turned, diagonal / 45, diagonal / 3)
  const pairs = bins.reduce((sum, bin) => sum + bin.pairs, 0)
  if (pairs < fewestPairs || bins.length < 3)
    return refuse(
      'variogram-too-few-pairs',
      `${pairs} pairs`,
      `A variogram cannot be fitted: ${places.length} places give ${pairs} pairs within a third of their extent, and ${fewestPairs} are needed. Give the variogram, or use the surface that is linear between points.`,
    )
  const scale = Math.max(...bins.map(({ semivariance }) => semivariance))
  if (!(scale > 1e-24 * Math.max(...places.map(({ value }) => value * value))))
    return refuse(
      'variogram-no-variation',
      '0',
      'A variogram cannot be fitted: all values are the same, so nothing shows how they change with distance.',
    )
  const held = choice.withoutNugget ? choice.errorVariance : null
  const fits = choice.shapes.flatMap((shape) => bestRange(bins, shape, diagonal, held))
  const best = fits.toSorted((a, b) => a.squares - b.squares)[0]
  const flat = bestFlat(bins)
  // A shape has two parameters more than a level line, one where its nugget is held: F above 4, about the 5 % point, for
  // it to be believed.
  const more = held === null ? 2 : 1
  if (
    !best ||
    best.sill <= 1e-3 * (best.sill + best.nugget) ||
    best.squares > flat / (1 + (4 * more) / Math.max(1, bins.length - more - 1))
  )
    return refuse(
      'variogram-pure-nugget',
      `${pairs} pairs`,
      `A variogram cannot be fitted: points close together differ as much as points far apart (${bins.length} classes of distance), so a reading says nothing of the ground beside it. Look at the points themselves.`,
    )
  const nugget = Math.max(0, best.nugget - choice.errorVariance)
  const variogram: Variogram = {
    shape: best.shape,
    partialSill: best.sill,
    rangeMetres: best.range,
    nugget,
    anisotropy: choice.anisotropy,
  }
  return accept({
    variogram,
    bins,
    weightedSquares: best.squares,
    sentence: `Variogram fitted to ${pairs} pairs in ${bins.length} classes: ${best.shape}, partial sill ${figure(best.sill)}, range parameter ${figure(best.range)} m, nugget ${figure(best.nugget)} of which ${figure(best.nugget - nugget)} is the points' own measurement error and ${figure(nugget)} the ground's.`,
  })
}

interface ShapeFit {
  readonly shape: VariogramShape
  readonly range: number
  readonly nugget: number
  readonly sill: number
  readonly squares: number
}

/** Range by a scan and then thirds around the best; nugget and sill follow from each range by linear least squares. */
function bestRange(
  bins: readonly VariogramBin[],
  shape: VariogramShape,
  diagonal: number,
  heldNugget: number | null,
): readonly ShapeFit[] {
  const fitAt = (range: number) => linearFit(bins, shape, range, heldNugget)
  const ranges = Array.from({ length: 60 }, (_, step) => diagonal * 10 ** (-2 + (step * 2.3) / 59))
  let place = 0
  const scanned = ranges.map(fitAt)
  scanned.forEach((fit, index) => {
    if (fit.squares < (scanned[place] as ShapeFit).squares) place = index
  })
  let low = ranges[Math.max(0, place - 1)] as number
  let high = ranges[Math.min(ranges.length - 1, place + 1)] as number
  for (let step = 0; step < 60; step++) {
    const [one, other] = [low + (high - low) / 3, high - (high - low) / 3]
    if (fitAt(one).squares < fitAt(other).squares) high = other
    else low = one
  }
  return [fitAt((low + high) / 2)]
}

function linearFit(
  bins: readonly VariogramBin[],
  shape: VariogramShape,
  range: number,
  heldNugget: number | null,
): ShapeFit {
  let [w, wg, wgg, wy, wgy] = [0, 0, 0, 0, 0]
  for (const { pairs, distanceMetres, semivariance } of bins) {
    const weight = pairs / distanceMetres ** 2
    const share = variogramShare(shape, distanceMetres, range)
    w += weight
    wg += weight * share
    wgg += weight * share * share
    wy += weight * semivariance
    wgy += weight * share * semivariance
  }
  const determinant = w * wgg - wg * wg
  let sill = determinant > 1e-12 * w * wgg ? (w * wgy - wg * wy) / determinant : 0
  let nugget = (wy - sill * wg) / w
  if (nugget < 0) {
    nugget = 0
    sill = wgy / wgg
  }
  if (heldNugget !== null) {
    nugget = heldNugget
    sill = (wgy - heldNugget * wg) / wgg
  }
  if (sill < 0) {
    sill = 0
    nugget = heldNugget ?? wy / w
  }
  const squares = bins.reduce(
    (sum, { pairs, distanceMetres, semivariance }) =>
      sum +
      (pairs / distanceMetres ** 2) *
        (semivariance - nugget - sill * variogramShare(shape, distanceMetres, range)) ** 2,
    0,
  )
  return { shape, range, nugget, sill, squares }
}

function bestFlat(bins: readonly VariogramBin[]): number {
  const weight = (bin: VariogramBin) => bin.pairs / bin.distanceMetres ** 2
  const all = bins.reduce((sum, bin) => sum + weight(bin), 0)
  const mean = bins.reduce((sum, bin) => sum + weight(bin) * bin.semivariance, 0) / all
  return bins.reduce((sum, bin) => sum + weight(bin) * (bin.semivariance - mean) ** 2, 0)
}

/** Between two corners of the box around places, metres. */
export function diagonalOf(places: readonly PlacedValue[]): number {
  const span = (of: (place: PlacedValue) => number) =>
    Math.max(...places.map(of)) - Math.min(...places.map(of))
  return places.length > 1
    ? Math.hypot(
        span(({ east }) => east),
        span(({ north }) => north),
      )
    : 0
}

const refuse = (code: string, value: string, message: string): Outcome<never> =>
  reject({ code, value, expected: 'values that grow apart with distance', message })

const figure = (value: number) => String(Number(value.toPrecision(3)))
