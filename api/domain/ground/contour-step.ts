/** A step between contour levels, and why it is that one. */
export interface ContourStep {
  readonly step: number
  /** Whole sentence. */
  readonly reason: string
}

/**
 * Step of 1, 2 or 5 times a power of ten that gives at most `atMost` lines, and none finer than twice the typical
 * standard deviation: two lines nearer than that cannot be told apart. Null where the surface is flat within it.
 */
export function contourStep(
  lowest: number,
  highest: number,
  typicalDeviation: number,
  unit: string,
  atMost = 12,
): ContourStep | null {
  const span = highest - lowest
  const finest = 2 * typicalDeviation
  if (!(span > 0) || span < finest) return null
  const wanted = Math.max(span / atMost, finest)
  const power = 10 ** Math.floor(Math.log10(wanted))
  const step = ([1, 2, 5, 10].find((mantissa) => mantissa * power >= wanted * (1 - 1e-9)) as number) * power
  return {
    step,
    reason:
      finest > span / atMost
        ? `Lines every ${step} ${unit}: a finer step would be less than twice the typical standard deviation (${Number(typicalDeviation.toPrecision(2))} ${unit}), and its lines could not be told apart.`
        : `Lines every ${step} ${unit}: at most ${atMost} lines between ${Number(lowest.toPrecision(3))} and ${Number(highest.toPrecision(3))} ${unit}.`,
  }
}
