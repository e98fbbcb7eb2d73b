/** A number as it stands in a page's operators: at most three decimals, never an exponent (ISO 32000-1, 7.3.3). */
export function written(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`A page cannot hold the number ${value}.`)
  const rounded = Math.round(value * 1000) / 1000
  return Object.is(rounded, -0) ? '0' : String(Math.abs(rounded) < 1e-3 ? 0 : rounded)
}

export const writtenAll = (...values: readonly number[]): string => values.map(written).join(' ')

/** Red, green and blue, 0 to 1, of `#rrggbb`. */
export function writtenColour(colour: string): string {
  const packed = Number.parseInt(colour.slice(1), 16)
  return writtenAll((packed >> 16) / 255, ((packed >> 8) & 255) / 255, (packed & 255) / 255)
}
