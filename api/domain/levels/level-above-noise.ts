/**
 * True where a level stands at least `multiple` times the repeatability (or the smallest detectable change) away
 * from the zero reading: a nearer one is reached by noise alone. Both in one unit; the distance is taken as it is.
 */
export const isAboveNoise = (level: number, noise: number, multiple = 1): boolean =>
  Math.abs(level) >= multiple * noise
