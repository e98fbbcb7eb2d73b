/** Which of rising levels is the first above a value; their number where none is. */
export function firstAbove(levels: readonly number[], value: number): number {
  let [low, high] = [0, levels.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((levels[middle] as number) > value) high = middle
    else low = middle + 1
  }
  return low
}
