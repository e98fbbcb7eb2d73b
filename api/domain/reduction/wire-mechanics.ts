/** A wire clamped at both ends, in SI units. */
export interface StretchedWire {
  readonly lengthMetres: number
  readonly diameterMetres: number
  readonly densityKgPerM3: number
  readonly modulusPa: number
  readonly stressPa: number
}

/** First frequency in Hz of the wire as a string without stiffness: f = √(σ / ρ) / 2L. */
export const stringFrequencyHz = ({
  lengthMetres,
  densityKgPerM3,
  stressPa,
}: Pick<StretchedWire, 'lengthMetres' | 'densityKgPerM3' | 'stressPa'>): number =>
  Math.sqrt(stressPa / densityKgPerM3) / (2 * lengthMetres)

/**
 * First frequency in Hz of the wire with its bending stiffness and clamped ends: the eigenvalue of a stretched beam,
 * k₁ tan(k₁L/2) + k₂ tanh(k₂L/2) = 0. A short thick wire rings several per cent higher than a string, which is why a
 * gauge's factor comes from its calibration and `wire-strain` serves for changes and for checking.
 */
export function clampedWireFrequencyHz(wire: StretchedWire): number {
  const { lengthMetres, diameterMetres, densityKgPerM3, modulusPa, stressPa } = wire
  // Second moment over area of a round wire is d²/16.
  const stiffness = (modulusPa * diameterMetres ** 2) / 16
  const second = (first: number) => Math.sqrt(first * first + stressPa / stiffness)
  const half = lengthMetres / 2
  const mismatch = (first: number) =>
    first * Math.tan(first * half) + second(first) * Math.tanh(second(first) * half)
  let [low, high] = [Math.PI / 2 / half, Math.PI / half]
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2
    if (mismatch(middle) > 0) high = middle
    else low = middle
  }
  const first = (low + high) / 2
  return (first * second(first) * Math.sqrt(stiffness / densityKgPerM3)) / (2 * Math.PI)
}
