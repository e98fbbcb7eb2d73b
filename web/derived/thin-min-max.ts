/** Which rows of a dense line to draw, in order. */
export type Rows = Uint32Array

/**
 * Thins a line to at most four rows a pixel: first, lowest, highest and last of each, so that no peak is lost
 * and the line enters and leaves each pixel as it did. `x` ascending, in pixels; rows without a value
 * (NaN) are kept only where they part a pixel's rows, so that gaps stay gaps.
 */
export function thinMinMax(x: ArrayLike<number>, y: ArrayLike<number>): Rows {
  const kept: number[] = []
  let start = 0
  while (start < x.length) {
    const pixel = Math.floor(x[start] as number)
    let end = start
    while (end < x.length && Math.floor(x[end] as number) === pixel) end++
    keepPixel(y, start, end, kept)
    start = end
  }
  return Uint32Array.from(kept)
}

function keepPixel(y: ArrayLike<number>, start: number, end: number, kept: number[]): void {
  if (end - start <= 4) {
    for (let row = start; row < end; row++) kept.push(row)
    return
  }
  let lowest = -1
  let highest = -1
  let absent = -1
  for (let row = start; row < end; row++) {
    const value = y[row] as number
    if (!Number.isFinite(value)) {
      absent = row
      continue
    }
    if (lowest < 0 || value < (y[lowest] as number)) lowest = row
    if (highest < 0 || value > (y[highest] as number)) highest = row
  }
  const rows = new Set([start, lowest, highest, end - 1])
  if (absent >= 0) rows.add(absent)
  rows.delete(-1)
  kept.push(...[...rows].sort((left, right) => left - right))
}
