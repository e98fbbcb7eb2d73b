import type { BlockLayout } from './block-layout.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** The points that a block meets, gathered anew for each. */
export interface PointsOfBlock {
  /** Places in the system: the near points by distance, then all others within reach. */
  readonly order: Int32Array
  /** In that order. */
  readonly u: Float64Array
  readonly v: Float64Array
  readonly weights: Float64Array
  /** What `fill` fills, in that order. */
  readonly covariances: Float64Array
  /** Gives how many points there are, near and others. */
  gather(index: number, near: number): number
  /** Of a gathered near point by its place in the order, from the block's middle, where the variogram is alike in every direction. */
  distanceSquared(place: number): number
  /** Covariances of a target with the first `count`. */
  fill(east: number, north: number, count: number): void
}

/** Room for the points of one block at a time. */
export function createPointsOfBlock(
  system: KrigingSystem,
  { lattice, wide, tall, eastOf, northOf, extentOf }: BlockLayout,
): PointsOfBlock {
  const { axes, ways, covariance } = system
  const n = system.points.length
  const distances = new Float64Array(n)
  const order = new Int32Array(n)
  const [u, v, weights] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)]
  const covariances = new Float64Array(n)
  const every = new Float64Array(n)
  const eastMetres = wide * lattice.eastStepMetres
  const northMetres = tall * lattice.northStepMetres
  const radius =
    Math.hypot(axes[0] * eastMetres, axes[2] * eastMetres) / 2 +
    Math.hypot(axes[1] * northMetres, axes[3] * northMetres) / 2
  const reach = ways ? Number.POSITIVE_INFINITY : (Math.sqrt(covariance.reachSquared) + radius) ** 2

  function gather(index: number, near: number): number {
    const { left, low } = extentOf(index)
    const [east, north] = [eastOf(left + wide / 2), northOf(low + tall / 2)]
    const middleU = axes[0] * east + axes[1] * north
    const middleV = axes[2] * east + axes[3] * north
    for (let point = 0; point < n; point++)
      distances[point] =
        ((system.u[point] as number) - middleU) ** 2 + ((system.v[point] as number) - middleV) ** 2
    let filled = 0
    for (let point = 0; point < n; point++) {
      const own = distances[point] as number
      if (filled === near && own >= (distances[order[near - 1] as number] as number)) continue
      let place = filled < near ? filled++ : near - 1
      for (; place > 0 && own < (distances[order[place - 1] as number] as number); place--)
        order[place] = order[place - 1] as number
      order[place] = point
    }
    const farthestNear = distances[order[filled - 1] as number] as number
    const taken = new Set(order.subarray(0, filled))
    let active = filled
    for (let point = 0; point < n; point++) {
      const own = distances[point] as number
      if (own >= farthestNear && own < reach && !taken.has(point)) order[active++] = point
    }
    for (let place = 0; place < active; place++) {
      const point = order[place] as number
      u[place] = system.u[point] as number
      v[place] = system.v[point] as number
      weights[place] = system.weights[point] as number
    }
    return active
  }

  function fill(east: number, north: number, count: number): void {
    if (ways === null) {
      const ownU = axes[0] * east + axes[1] * north
      const ownV = axes[2] * east + axes[3] * north
      covariance.fill(ownU, ownV, u, v, count, covariances, 0, covariance.placeSquared)
      return
    }
    system.fillCovariances(east, north, every, 0)
    for (let place = 0; place < count; place++) covariances[place] = every[order[place] as number] as number
  }

  const distanceSquared = (place: number) => distances[order[place] as number] as number

  return { order, u, v, weights, covariances, gather, distanceSquared, fill }
}
