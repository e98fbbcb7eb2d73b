/** Chebyshev's places on a side of 1, where a polynomial through few values swings least. */
export const chebyshevPlaces = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, place) => (1 - Math.cos((Math.PI * (place + 0.5)) / count)) / 2)

/** Share of the value at each of the places in the polynomial through all of them, at t from 0 to 1 (barycentric). */
export function chebyshevShares(t: number, count: number): Float64Array {
  const places = chebyshevPlaces(count)
  const met = places.indexOf(t)
  if (met >= 0) return new Float64Array(count).fill(1, met, met + 1)
  const shares = places.map(
    (place, at) => ((at % 2 === 0 ? 1 : -1) * Math.sin((Math.PI * (at + 0.5)) / count)) / (t - place),
  )
  const sum = shares.reduce((total, share) => total + share, 0)
  return shares.map((share) => share / sum)
}
