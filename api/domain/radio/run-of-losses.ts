/**
 * Chance that among `trials` packets somewhere at least `length` in a row are lost, each with probability `lossShare` by
 * itself. Exact: the state is how many were lost last. 0 where there are fewer packets than that. Real losses come in
 * bursts, so this is the least chance.
 */
export function chanceOfRun(trials: number, lossShare: number, length: number): number {
  if (length <= 0) return 1
  if (trials < length || lossShare <= 0) return 0
  if (lossShare >= 1) return 1
  // Chance that no run has ended by packet n, and of such a first run ending there.
  const without = new Float64Array(trials + 1).fill(1)
  const first = lossShare ** length
  let reached = 0
  for (let packet = length; packet <= trials; packet++) {
    const ends =
      packet === length ? first : (1 - lossShare) * first * (without[packet - length - 1] as number)
    reached += ends
    without[packet] = 1 - reached
  }
  return Math.min(1, reached)
}

/**
 * Least number of losses in a row whose chance among `trials` stays below `chance`: a gap that long is not to be expected of
 * a link with losses by themselves. Infinity where every packet is lost.
 */
export function runNotExpected(trials: number, lossShare: number, chance: number): number {
  if (lossShare >= 1) return Number.POSITIVE_INFINITY
  let [likely, unlikely] = [0, trials + 1]
  while (unlikely - likely > 1) {
    const length = (likely + unlikely) >> 1
    if (chanceOfRun(trials, lossShare, length) >= chance) likely = length
    else unlikely = length
  }
  return unlikely
}
