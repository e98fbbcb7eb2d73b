import { dayMs, programme } from './programme.ts'

/** Deep sand: transmissivity and storage; the wells act outside as one at this place, the dock recharges. */
export const aquifer = {
  transmissivityM2PerS: 2e-3,
  storage: 4e-4,
  pumpedM3PerS: 0.022,
  wellEastingMetres: 500_060,
  wellNorthingMetres: 310_028,
  dockNorthingMetres: 310_070,
  /** The box stands across the sand: south of it this share of the drawdown is felt. */
  southShare: 0.8,
  southOfNorthingMetres: 310_000,
} as const

/**
 * Theis' well function W(u), u > 0: series up to 1, rational approximation above (Abramowitz and Stegun 1964,
 * 5.1.11 and 5.1.56), relative error below 1e-7.
 */
export function wellFunction(u: number): number {
  if (u <= 1) {
    let sum = -0.5772156649015329 - Math.log(u)
    let term = -1
    for (let n = 1; n < 30; n++) {
      term *= -u / n
      sum += term / n
    }
    return sum
  }
  const top = (((u + 8.5733287401) * u + 18.059016973) * u + 8.6347608925) * u + 0.2677737343
  const base = (((u + 9.5733223454) * u + 25.6329561486) * u + 21.0996530827) * u + 3.9584969228
  return (Math.exp(-u) / u) * (top / base)
}

/** Drawdown in the deep sand outside the box, metres: Theis with an image recharge well across the dock line. */
export function outsideDrawdownMetres(
  eastingMetres: number,
  northingMetres: number,
  epochMs: number,
): number {
  const seconds = (epochMs - programme.pumpingFrom) / 1000
  if (seconds <= 0) return 0
  const { transmissivityM2PerS: t, storage, pumpedM3PerS } = aquifer
  const east = eastingMetres - aquifer.wellEastingMetres
  const north = northingMetres - aquifer.wellNorthingMetres
  const imageNorth = northingMetres - (2 * aquifer.dockNorthingMetres - aquifer.wellNorthingMetres)
  const u = (squared: number) => (Math.max(squared, 1) * storage) / (4 * t * seconds)
  const difference =
    wellFunction(u(east * east + north * north)) - wellFunction(u(east * east + imageNorth * imageNorth))
  const felt = northingMetres < aquifer.southOfNorthingMetres ? aquifer.southShare : 1
  return felt * (pumpedM3PerS / (4 * Math.PI * t)) * difference
}

/** Drawdown in the deep sand inside the box, metres. */
export function insideDrawdownMetres(epochMs: number): number {
  const days = (epochMs - programme.pumpingFrom) / dayMs
  return days <= 0 ? 0 : 3.3 * (1 - Math.exp(-days / 12))
}

/**
 * Share of the drawdown under a clay layer that has reached a depth in it: Terzaghi, top held, base lowered at
 * time 0. `depthShare` 0 at the top of the layer to 1 at its base.
 */
export function clayShare(depthShare: number, daysSince: number, layer: ClayLayer): number {
  if (daysSince <= 0) return 0
  const factor = (layer.consolidationM2PerYear * (daysSince / 365)) / layer.thicknessMetres ** 2
  let share = depthShare
  for (let n = 1; n < 40; n++) {
    const decay = Math.exp(-n * n * Math.PI * Math.PI * factor)
    if (decay < 1e-9) break
    share += ((2 / Math.PI) * (n % 2 === 0 ? 1 : -1) * Math.sin(n * Math.PI * depthShare) * decay) / n
  }
  return Math.max(0, share)
}

export interface ClayLayer {
  readonly thicknessMetres: number
  readonly consolidationM2PerYear: number
}
