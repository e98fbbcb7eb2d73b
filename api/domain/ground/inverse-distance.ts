import type { PlacedValue } from './kriging/empirical-variogram.ts'

/** Mean of the values weighted by 1 / distance^power (Shepard 1968); the value itself at a place. NaN of no places. */
export function inverseDistanceValue(
  places: readonly PlacedValue[],
  east: number,
  north: number,
  power: number,
): number {
  let [sum, weights] = [0, 0]
  for (const place of places) {
    const squared = (place.east - east) ** 2 + (place.north - north) ** 2
    if (squared === 0) return place.value
    const weight = power === 2 ? 1 / squared : squared ** (-power / 2)
    sum += weight * place.value
    weights += weight
  }
  return sum / weights
}
