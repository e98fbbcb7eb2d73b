/** Metres a second, exact by definition. */
const lightMetresPerSecond = 299_792_458

/** Wavelength in metres of a frequency in MHz. */
export const wavelengthMetres = (frequencyMHz: number): number => lightMetresPerSecond / (frequencyMHz * 1e6)

/** 20 log10(4π/c) for MHz and km; Recommendation ITU-R P.525 rounds it to 32.4. */
const exactConstantDb = 20 * Math.log10((4 * Math.PI * 1e9) / lightMetresPerSecond)

/**
 * Loss in dB between isotropic antennas in free space (Recommendation ITU-R P.525). Distances above 0 in metres, frequency
 * in MHz. `constantDb`: the exact 32.4478 unless the rounded one is asked for.
 */
export const freeSpaceLossDb = (
  distanceMetres: number,
  frequencyMHz: number,
  constantDb = exactConstantDb,
): number => constantDb + 20 * Math.log10(frequencyMHz) + 20 * Math.log10(distanceMetres / 1000)

/**
 * Radius in metres of the first Fresnel zone at a place of a path, from its distances to both ends (Recommendation ITU-R
 * P.526). A path counts as clear where six tenths of it are.
 */
export const fresnelRadiusMetres = (
  fromOneMetres: number,
  fromOtherMetres: number,
  wavelength: number,
): number => Math.sqrt((wavelength * fromOneMetres * fromOtherMetres) / (fromOneMetres + fromOtherMetres))

/**
 * Distance in metres at which loss over flat ground begins to grow with the fourth power: 4 h₁ h₂ / λ. Others put it at
 * 4π h₁ h₂ / λ (Rappaport, Wireless Communications), π times as far: pass `factor` 4π.
 */
export const breakDistanceMetres = (
  oneHeightMetres: number,
  otherHeightMetres: number,
  wavelength: number,
  factor = 4,
): number => (factor * oneHeightMetres * otherHeightMetres) / wavelength

/** Loss in dB over flat ground that reflects wholly and in opposite phase: direct and reflected wave added up. */
export function twoRayLossDb(
  distanceMetres: number,
  oneHeightMetres: number,
  otherHeightMetres: number,
  wavelength: number,
): number {
  const turn = (2 * Math.PI) / wavelength
  const direct = Math.hypot(distanceMetres, oneHeightMetres - otherHeightMetres)
  const reflected = Math.hypot(distanceMetres, oneHeightMetres + otherHeightMetres)
  const real = Math.cos(turn * direct) / direct - Math.cos(turn * reflected) / reflected
  const imaginary = Math.sin(turn * direct) / direct - Math.sin(turn * reflected) / reflected
  return -20 * Math.log10((wavelength / (4 * Math.PI)) * Math.hypot(real, imaginary))
}

/** The same well beyond the break distance: 40 log d, whatever the frequency. Before it, far too small. */
export const farGroundLossDb = (
  distanceMetres: number,
  oneHeightMetres: number,
  otherHeightMetres: number,
): number => 40 * Math.log10(distanceMetres) - 20 * Math.log10(oneHeightMetres * otherHeightMetres)
