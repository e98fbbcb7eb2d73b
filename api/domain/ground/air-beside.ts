/** A value at an instant. */
export interface TimedValue {
  readonly atEpochMs: number
  readonly value: number
}

/**
 * Air pressure at the instants of other readings, by a straight line between the barometer's readings on both sides of
 * it; both series in order of time. Null where one of the two is missing or they lie further apart than
 * `longestGapMs`: air pressure is never carried beyond what was read.
 */
export function airPressureBeside(
  instants: readonly number[],
  barometer: readonly TimedValue[],
  longestGapMs: number,
): readonly (number | null)[] {
  let next = 0
  return instants.map((instant) => {
    while (next < barometer.length && (barometer[next] as TimedValue).atEpochMs < instant) next++
    const after = barometer[next]
    const before = barometer[next - 1]
    if (after?.atEpochMs === instant) return after.value
    if (!after || !before || after.atEpochMs - before.atEpochMs > longestGapMs) return null
    const share = (instant - before.atEpochMs) / (after.atEpochMs - before.atEpochMs)
    return before.value + share * (after.value - before.value)
  })
}

/**
 * Level that an open well at the same place would show, in metres of water above no level in particular: what all
 * estimates of barometric efficiency are made from. `pressureKpa` is as published, with the share `takenOut` (0 to 1)
 * of the change of air pressure already taken out of what a sealed sensor felt; a vented sensor is 1, as it shows an
 * open well's level of itself.
 */
export const openWellLevelMetres = (
  pressureKpa: number,
  airPressureKpa: number,
  takenOut: number,
  unitWeightOfWater: number,
): number => (pressureKpa - (1 - takenOut) * airPressureKpa) / unitWeightOfWater
