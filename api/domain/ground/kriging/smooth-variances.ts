import { quadraticForms } from './batch-products.ts'
import type { BlockExtent } from './block-layout.ts'
import { chebyshevPlaces, chebyshevShares } from './chebyshev.ts'
import { heldVariance } from './krige-at.ts'
import type { Lattice } from './krige-lattice.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** Fills the variances of a block, or leaves them and gives false. */
export type FillSmooth = (extent: BlockExtent) => boolean

const perSide = 6
const placesOfBlock = perSide * perSide
/** Share of a variance that the polynomial may be off where it is held against the direct solution. */
const allowedShare = 0.002

/**
 * Where a covariance bends nowhere, neither does the variance: over a block it is a polynomial through the direct
 * solutions at 36 places, if it agrees with them at the block's middle and where the polynomial is least. Null where the
 * covariance bends, or ways run around barriers.
 */
export function smoothVariances(
  system: KrigingSystem,
  lattice: Lattice,
  variances: Float64Array,
): FillSmooth | null {
  const { size, terms, inverse, covariance, ways } = system
  if (!covariance.isSmooth || ways !== null) return null
  const right = new Float64Array((placesOfBlock + 2) * size)
  const forms = new Float64Array(placesOfBlock + 2)
  const places = chebyshevPlaces(perSide)
  const put = (at: number, column: number, row: number) => {
    const east = lattice.east + column * lattice.eastStepMetres
    const north = lattice.north + row * lattice.northStepMetres
    system.fillCovariances(east, north, right, at * size)
    system.fillDrift(east, north, right, at * size + size - terms)
  }
  const varianceAt = (at: number) => heldVariance(system, covariance.atPlace - (forms[at] as number))
  return ({ left, right: end, low, high }) => {
    const [across, up] = [end - 1 - left, high - 1 - low]
    if ((across + 1) * (up + 1) < 2 * placesOfBlock) return false
    for (let at = 0; at < placesOfBlock; at++)
      put(
        at,
        left + across * (places[at % perSide] as number),
        low + up * (places[Math.floor(at / perSide)] as number),
      )
    quadraticForms(inverse, size, right, placesOfBlock, forms)
    const found = new Float64Array((across + 1) * (up + 1))
    const sharesAcross = Array.from({ length: across + 1 }, (_, x) => chebyshevShares(x / across, perSide))
    for (let y = 0; y <= up; y++) {
      const shares = chebyshevShares(y / up, perSide)
      const row = Float64Array.from({ length: perSide }, (_, x) =>
        shares.reduce((sum, share, at) => sum + share * varianceAt(at * perSide + x), 0),
      )
      for (let x = 0; x <= across; x++)
        found[y * (across + 1) + x] = (sharesAcross[x] as Float64Array).reduce(
          (sum, share, at) => sum + share * (row[at] as number),
          0,
        )
    }
    const least = found.reduce((lowest, one, at) => (one < (found[lowest] as number) ? at : lowest), 0)
    const looked = [least, (up >> 1) * (across + 1) + (across >> 1)]
    looked.forEach((at, place) => {
      const column = at % (across + 1)
      put(place, left + column, low + (at - column) / (across + 1))
    })
    quadraticForms(inverse, size, right, looked.length, forms)
    const agrees = looked.every((at, place) => {
      const direct = varianceAt(place)
      return Math.abs((found[at] as number) - direct) <= allowedShare * direct
    })
    if (!agrees) return false
    for (let y = 0; y <= up; y++)
      variances.set(
        found.subarray(y * (across + 1), (y + 1) * (across + 1)),
        (low + y) * lattice.columns + left,
      )
    return true
  }
}
