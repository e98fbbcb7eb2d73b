import { multiplyBatch, quadraticForms } from './batch-products.ts'
import { dot } from './cholesky.ts'
import { createFarValues, farShares } from './far-values.ts'
import { heldVariance } from './krige-at.ts'
import type { Lattice } from './krige-lattice.ts'
import type { KrigingSystem } from './kriging-system.ts'

export interface Blocks {
  readonly count: number
  /** Blocks in a row of them. */
  readonly across: number
  /** How many of the nearest points are taken exactly. */
  readonly near: number
  /** What all blocks share; yields the share of the whole that is done. */
  prepare(): Generator<number, void>
  extentOf(index: number): BlockExtent
  /**
   * Estimates and variances of a block. Gives how far the variance at its middle was off the direct solution before
   * it was corrected; infinite where a barrier passes and nothing was solved.
   */
  solve(index: number, near: number): number
}

export interface BlockExtent {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

/** Fewer points than this are solved directly as fast. */
const fewPoints = 60
const nearPoints = 20
/** Where no more points than this are within the covariance's reach, the block needs no interpolation. */
const fewInReach = 90

/**
 * Blocks of nodes about as wide as points lie apart. With κ the covariances and drift terms of a target and S the
 * inverse, the variance is C(0) − κᵀSκ. Split κ into the block's near points and the rest: the near part is taken at
 * every node, the rest is interpolated (cubic, between the corners of 4 × 4 blocks), for which S times the corners'
 * κ is all that is needed. Null where the direct solution is as fast.
 */
export function createBlocks(
  system: KrigingSystem,
  lattice: Lattice,
  wanted: Uint8Array | null,
  values: Float64Array,
  variances: Float64Array,
): Blocks | null {
  const { size, terms, inverse, weights, covariance, axes, ways, knownMean } = system
  const n = size - terms
  const { columns, rows, eastStepMetres: stepE, northStepMetres: stepN } = lattice
  const spacing = 0.85 * spacingOf(system)
  const wide = Math.min(32, Math.floor(spacing / stepE))
  const tall = Math.min(32, Math.floor(spacing / stepN))
  if (n < fewPoints || wide * tall < 16 || columns < wide || rows < tall) return null
  const across = Math.ceil(columns / wide)
  const up = Math.ceil(rows / tall)
  const cornersAcross = across + 3
  const corners = cornersAcross * (up + 3)
  const eastOf = (column: number) => lattice.east + column * stepE
  const northOf = (row: number) => lattice.north + row * stepN
  const needed = neededBlocks()
  const right = new Float64Array(corners * size)
  const solved = new Float64Array(corners * size)
  const middles = new Float64Array(across * up)
  const products = new Float64Array(corners * 28).fill(Number.NaN)

  const sharesAcross = Array.from({ length: wide }, (_, column) => cubicShares(column / wide))
  // Within a finite reach a covariance has an edge that no polynomial follows, and fewer points are met at all.
  const farValues =
    ways === null && covariance.reachSquared === Number.POSITIVE_INFINITY
      ? createFarValues(covariance, n)
      : null
  const farAcross = farValues && Array.from({ length: wide }, (_, column) => farShares(column / wide))
  const farUp = farValues && Array.from({ length: tall }, (_, row) => farShares(row / tall))
  const largest = system.points.reduce((most, { value }) => Math.max(most, Math.abs(value - knownMean)), 0)

  function extentOf(index: number): BlockExtent {
    const left = (index % across) * wide
    const low = Math.floor(index / across) * tall
    return { left, right: Math.min(left + wide, columns), low, high: Math.min(low + tall, rows) }
  }

  function neededBlocks(): Uint8Array {
    const marks = new Uint8Array(across * up).fill(wanted ? 0 : 1)
    if (wanted)
      for (let node = 0; node < wanted.length; node++)
        if (wanted[node]) {
          const column = node % columns
          marks[Math.floor((node - column) / columns / tall) * across + Math.floor(column / wide)] = 1
        }
    if (ways)
      for (let index = 0; index < marks.length; index++) {
        const { left, low } = extentOf(index)
        const [e, s] = [eastOf(left - wide), northOf(low - tall)]
        // A barrier through the corners that a block interpolates between: it is solved directly.
        if (marks[index] && ways.passes(e, s, e + 3 * wide * stepE, s + 3 * tall * stepN)) marks[index] = 2
      }
    return marks
  }

  function* prepare(): Generator<number, void> {
    const isNeeded = new Uint8Array(corners)
    for (let index = 0; index < needed.length; index++)
      if (needed[index] === 1)
        for (let y = 0; y < 4; y++)
          for (let x = 0; x < 4; x++)
            isNeeded[(Math.floor(index / across) + y) * cornersAcross + (index % across) + x] = 1
    yield* inBatches(
      corners,
      (corner) => isNeeded[corner] === 1,
      0,
      (corner, from) => {
        const east = eastOf(((corner % cornersAcross) - 1) * wide)
        const north = northOf((Math.floor(corner / cornersAcross) - 1) * tall)
        system.fillCovariances(east, north, right, from, true)
        system.fillDrift(east, north, right, from + n)
      },
    )
    const at = new Float64Array(batch * size)
    const forms = new Float64Array(batch)
    let held: number[] = []
    const flush = () => {
      quadraticForms(inverse, size, at, held.length, forms)
      held.forEach((index, place) => {
        middles[index] = covariance.atPlace - (forms[place] as number)
      })
      held = []
    }
    for (let index = 0; index < needed.length; index++) {
      if (needed[index] !== 1) continue
      const [column, row] = middleOf(index)
      const from = held.length * size
      system.fillCovariances(eastOf(column), northOf(row), at, from)
      system.fillDrift(eastOf(column), northOf(row), at, from + n)
      held.push(index)
      if (held.length === batch) {
        flush()
        yield 0.2 + (0.2 * index) / needed.length
      }
    }
    if (held.length > 0) flush()
  }

  const middleOf = (index: number): readonly [column: number, row: number] => {
    const { left, right: end, low, high } = extentOf(index)
    return [Math.min(end - 1, left + (wide >> 1)), Math.min(high - 1, low + (tall >> 1))]
  }

  const batch = 32

  function* inBatches(
    total: number,
    isWanted: (index: number) => boolean,
    begun: number,
    fill: (index: number, from: number) => void,
  ): Generator<number, void> {
    for (let start = 0; start < total; start += batch) {
      const end = Math.min(total, start + batch)
      let any = false
      for (let index = start; index < end; index++)
        if (isWanted(index)) {
          fill(index, index * size)
          any = true
        }
      if (!any) continue
      const part = right.subarray(start * size, end * size)
      multiplyBatch(inverse, size, part, end - start, solved.subarray(start * size, end * size))
      yield begun + (0.2 * end) / total
    }
  }

  /** κ of one corner with S·κ of another, kept: neighbouring blocks ask for the same. */
  function productOf(one: number, other: number): number {
    const [from, to] = one < other ? [one, other] : [other, one]
    const y = Math.floor(to / cornersAcross) - Math.floor(from / cornersAcross)
    const x = (to % cornersAcross) - (from % cornersAcross)
    const key = from * 28 + y * 7 + x + 3
    const kept = products[key] as number
    if (!Number.isNaN(kept)) return kept
    const product = dot(right, from * size, solved, to * size, size)
    products[key] = product
    return product
  }

  const distances = new Float64Array(n)
  const order = new Int32Array(n)
  const activeU = new Float64Array(n)
  const activeV = new Float64Array(n)
  const activeWeights = new Float64Array(n)
  const covariances = new Float64Array(n)
  const every = new Float64Array(n)
  const drift = new Float64Array(Math.max(1, terms))

  /** The near points first, then all others within reach; gives how many there are. */
  function orderPoints(index: number, near: number): number {
    const { left, low } = extentOf(index)
    const [e, north] = [eastOf(left + wide / 2), northOf(low + tall / 2)]
    const u = axes[0] * e + axes[1] * north
    const v = axes[2] * e + axes[3] * north
    for (let point = 0; point < n; point++)
      distances[point] = ((system.u[point] as number) - u) ** 2 + ((system.v[point] as number) - v) ** 2
    let filled = 0
    for (let point = 0; point < n; point++) {
      const own = distances[point] as number
      if (filled === near && own >= (distances[order[near - 1] as number] as number)) continue
      let place = filled < near ? filled++ : near - 1
      for (; place > 0 && own < (distances[order[place - 1] as number] as number); place--)
        order[place] = order[place - 1] as number
      order[place] = point
    }
    const radius =
      Math.hypot(axes[0] * stepE * wide, axes[2] * stepE * wide) / 2 +
      Math.hypot(axes[1] * stepN * tall, axes[3] * stepN * tall) / 2
    const reach = ways ? Number.POSITIVE_INFINITY : (Math.sqrt(covariance.reachSquared) + radius) ** 2
    const farthestNear = distances[order[filled - 1] as number] as number
    const taken = new Set(order.subarray(0, filled))
    let active = filled
    for (let point = 0; point < n; point++) {
      const own = distances[point] as number
      if (own >= farthestNear && own < reach && !taken.has(point)) order[active++] = point
    }
    for (let place = 0; place < active; place++) {
      const point = order[place] as number
      activeU[place] = system.u[point] as number
      activeV[place] = system.v[point] as number
      activeWeights[place] = weights[point] as number
    }
    return active
  }

  function fillActive(east: number, north: number, active: number): void {
    if (ways === null) {
      const u = axes[0] * east + axes[1] * north
      const v = axes[2] * east + axes[3] * north
      covariance.fill(u, v, activeU, activeV, active, covariances, 0, covariance.placeSquared)
      return
    }
    system.fillCovariances(east, north, every, 0)
    for (let place = 0; place < active; place++) covariances[place] = every[order[place] as number] as number
  }

  function solve(index: number, nearWanted: number): number {
    if (needed[index] === 0) return 0
    if (needed[index] === 2) return Number.POSITIVE_INFINITY
    const near = Math.min(nearWanted, n)
    const active = orderPoints(index, near)
    if (active <= fewInReach && active < n) return solveInReach(index, active)
    const far = farPart(index, near)
    const { left, right: end, low, high } = extentOf(index)
    const [middleColumn, middleRow] = middleOf(index)
    const isFarDrawn = drawFarValues(index, near, active)
    const filled = isFarDrawn ? near : active
    const atCorners = new Float64Array(4 * near)
    const rowForm = new Float64Array(16)
    const { atPlace } = covariance
    for (let row = low; row < high; row++) {
      const y = cubicShares((row - low) / tall)
      combineRow(far, near, y, atCorners, rowForm)
      if (isFarDrawn) farValues?.takeRow(farUp?.[row - low] as Float64Array)
      for (let column = left; column < end; column++) {
        const node = row * columns + column
        if (wanted && wanted[node] === 0 && !(row === middleRow && column === middleColumn)) continue
        const east = eastOf(column)
        const north = northOf(row)
        fillActive(east, north, filled)
        let value = knownMean + dot(activeWeights, 0, covariances, 0, filled)
        if (isFarDrawn && farValues) value += farValues.at(farAcross?.[column - left] as Float64Array)
        system.fillDrift(east, north, drift, 0)
        for (let term = 0; term < terms; term++)
          value += (weights[n + term] as number) * (drift[term] as number)
        values[node] = value
        const x = sharesAcross[column - left] as Shares
        const form = nearForm(far.nearInverse, near, atCorners, x, covariances) + farForm(rowForm, x)
        variances[node] = atPlace - form
      }
    }
    return correct(index)
  }

  /**
   * Whether what the far points add to estimates may be read off a polynomial: they are far, and at the block's middle
   * and at a corner the polynomial is their sum to nine digits of the largest value.
   */
  function drawFarValues(index: number, near: number, active: number): boolean {
    if (!farValues || !farAcross || !farUp || active === near) return false
    const { left, low } = extentOf(index)
    const eastwards = [axes[0] * wide * stepE, axes[2] * wide * stepE] as const
    const northwards = [axes[1] * tall * stepN, axes[3] * tall * stepN] as const
    const halfDiagonal =
      Math.max(
        Math.hypot(eastwards[0] + northwards[0], eastwards[1] + northwards[1]),
        Math.hypot(eastwards[0] - northwards[0], eastwards[1] - northwards[1]),
      ) / 2
    if ((distances[order[near - 1] as number] as number) < (1.8 * halfDiagonal) ** 2) return false
    const u = axes[0] * eastOf(left) + axes[1] * northOf(low)
    const v = axes[2] * eastOf(left) + axes[3] * northOf(low)
    const farWeights = activeWeights.subarray(near, active)
    const [us, vs] = [activeU.subarray(near, active), activeV.subarray(near, active)]
    farValues.fit({ u, v, eastwards, northwards }, us, vs, farWeights, active - near)
    for (const [x, y] of [
      [0, 0],
      [wide >> 1, tall >> 1],
      [wide - 1, tall >> 2],
    ] as const) {
      const [right, up] = [x / wide, y / tall]
      const [ownU, ownV] = [
        u + right * eastwards[0] + up * northwards[0],
        v + right * eastwards[1] + up * northwards[1],
      ]
      covariance.fill(ownU, ownV, us, vs, active - near, covariances, 0, -1)
      farValues.takeRow(farUp[y] as Float64Array)
      const off =
        farValues.at(farAcross[x] as Float64Array) - dot(farWeights, 0, covariances, 0, active - near)
      if (!(Math.abs(off) <= 1e-10 * largest)) return false
    }
    return true
  }

  /** All other covariances are 0: the active points and the drift are the whole. Nothing is off. */
  function solveInReach(index: number, active: number): number {
    const whole = active + terms
    const part = new Float64Array(whole * whole)
    const placeOf = (at: number) => (at < active ? (order[at] as number) : n + at - active)
    for (let i = 0; i < whole; i++)
      for (let j = 0; j < whole; j++) part[i * whole + j] = inverse[placeOf(i) * size + placeOf(j)] as number
    const { left, right: end, low, high } = extentOf(index)
    const ownWeights = Float64Array.from({ length: whole }, (_, at) => weights[placeOf(at)] as number)
    const batchOf = new Float64Array(batch * whole)
    const forms = new Float64Array(batch)
    for (let row = low; row < high; row++) {
      const count = end - left
      for (let column = left; column < end; column++) {
        const from = (column - left) * whole
        fillActive(eastOf(column), northOf(row), active)
        batchOf.set(covariances.subarray(0, active), from)
        system.fillDrift(eastOf(column), northOf(row), batchOf, from + active)
      }
      quadraticForms(part, whole, batchOf, count, forms)
      for (let column = left; column < end; column++) {
        const node = row * columns + column
        values[node] = knownMean + dot(ownWeights, 0, batchOf, (column - left) * whole, whole)
        variances[node] = Math.max(0, covariance.atPlace - (forms[column - left] as number))
      }
    }
    return 0
  }

  /** What interpolation misses is nothing at a block's corners and most at its middle, where it is known. */
  function correct(index: number): number {
    const { left, right: end, low, high } = extentOf(index)
    const [column, row] = middleOf(index)
    const off = (middles[index] as number) - (variances[row * columns + column] as number)
    for (let row = low; row < high; row++)
      for (let column = left; column < end; column++) {
        const node = row * columns + column
        const share = (bump((column - left) / wide) + bump((row - low) / tall)) / 2
        variances[node] = heldVariance(system, (variances[node] as number) + off * share)
      }
    return Math.abs(off)
  }

  /** For the 16 corners around a block: what the near points see of the far ones, and the far ones of each other. */
  function farPart(index: number, near: number): FarPart {
    const nearInverse = new Float64Array(near * near)
    for (let i = 0; i < near; i++)
      for (let j = 0; j < near; j++)
        nearInverse[i * near + j] = inverse[(order[i] as number) * size + (order[j] as number)] as number
    const first = Math.floor(index / across) * cornersAcross + (index % across)
    const own = new Float64Array(16 * near)
    const seen = new Float64Array(16 * near)
    const sum = new Float64Array(16 * near)
    const forms = new Float64Array(256)
    for (let c = 0; c < 16; c++) {
      const corner = first + (c >> 2) * cornersAcross + (c & 3)
      for (let i = 0; i < near; i++) own[c * near + i] = right[corner * size + (order[i] as number)] as number
      for (let i = 0; i < near; i++) {
        const inner = dot(nearInverse, i * near, own, c * near, near)
        const all = solved[corner * size + (order[i] as number)] as number
        seen[c * near + i] = all - inner
        sum[c * near + i] = all
      }
    }
    for (let c = 0; c < 16; c++)
      for (let d = 0; d <= c; d++) {
        const one = first + (c >> 2) * cornersAcross + (c & 3)
        const other = first + (d >> 2) * cornersAcross + (d & 3)
        const form =
          productOf(one, other) -
          dot(own, c * near, sum, d * near, near) -
          dot(seen, c * near, own, d * near, near)
        forms[c * 16 + d] = form
        forms[d * 16 + c] = form
      }
    return { nearInverse, seen, forms }
  }

  return { count: across * up, across, near: nearPoints, prepare, extentOf, solve }
}

interface FarPart {
  readonly nearInverse: Float64Array
  /** 16 corners by near points. */
  readonly seen: Float64Array
  /** 16 corners by 16. */
  readonly forms: Float64Array
}

type Shares = readonly [number, number, number, number]

const bump = (t: number) => 16 * (t * (1 - t)) ** 2

/** Of four nodes at -1, 0, 1 and 2, a cubic's shares at t. */
function cubicShares(t: number): Shares {
  const [before, after, last] = [t + 1, t - 1, t - 2]
  return [
    (-t * after * last) / 6,
    (before * after * last) / 2,
    (-before * t * last) / 2,
    (before * t * after) / 6,
  ]
}

/** The 4 × 4 corners drawn together to four along a row. */
function combineRow(
  { seen, forms }: FarPart,
  near: number,
  y: Shares,
  atCorners: Float64Array,
  rowForm: Float64Array,
): void {
  const width = 4 * near
  for (let at = 0; at < width; at++)
    atCorners[at] =
      y[0] * (seen[at] as number) +
      y[1] * (seen[width + at] as number) +
      y[2] * (seen[2 * width + at] as number) +
      y[3] * (seen[3 * width + at] as number)
  for (let x = 0; x < 4; x++)
    for (let z = 0; z < 4; z++) {
      let sum = 0
      for (let one = 0; one < 4; one++)
        for (let other = 0; other < 4; other++)
          sum +=
            (y[one] as number) * (y[other] as number) * (forms[(4 * one + x) * 16 + 4 * other + z] as number)
      rowForm[4 * x + z] = sum
    }
}

/** k·(A·k + 2·far), k the near covariances. */
function nearForm(
  inverse: Float64Array,
  near: number,
  atCorners: Float64Array,
  x: Shares,
  k: Float64Array,
): number {
  const [x0, x1, x2, x3] = x
  let form = 0
  for (let i = 0; i < near; i++) {
    const row = i * near
    let sum = 0
    for (let j = 0; j < i; j++) sum += (inverse[row + j] as number) * (k[j] as number)
    const far =
      x0 * (atCorners[i] as number) +
      x1 * (atCorners[near + i] as number) +
      x2 * (atCorners[2 * near + i] as number) +
      x3 * (atCorners[3 * near + i] as number)
    const own = k[i] as number
    form += own * (2 * (sum + far) + (inverse[row + i] as number) * own)
  }
  return form
}

function farForm(form: Float64Array, x: Shares): number {
  let sum = 0
  for (let i = 0; i < 4; i++) {
    const row = 4 * i
    sum +=
      (x[i] as number) *
      (x[0] * (form[row] as number) +
        x[1] * (form[row + 1] as number) +
        x[2] * (form[row + 2] as number) +
        x[3] * (form[row + 3] as number))
  }
  return sum
}

/** Side of the square that a point has to itself, metres, from the box around the points. */
function spacingOf({ points }: KrigingSystem): number {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const point of points) {
    west = Math.min(west, point.east)
    east = Math.max(east, point.east)
    south = Math.min(south, point.north)
    north = Math.max(north, point.north)
  }
  return Math.sqrt(((east - west) * (north - south)) / points.length)
}
