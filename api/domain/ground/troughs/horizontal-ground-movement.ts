import { settlementAt, type Trough } from '../trough.ts'

/**
 * Horizontal displacement across a tunnel, mm, along the offset (right positive), so negative right of the axis: the
 * ground moves to the tunnel, S y / z₀ (O'Reilly and New 1982, from memory). Greatest at ±i.
 */
export const horizontalDisplacementAt = (
  trough: Trough,
  axisDepthMetres: number,
  offsetMetres: number,
): number => (-settlementAt(trough, offsetMetres) * offsetMetres) / axisDepthMetres

/** Horizontal strain across a tunnel, mm per metre, extension positive: shortened within ±i, stretched outside, most at ±√3 i. */
export const horizontalStrainAt = (trough: Trough, axisDepthMetres: number, offsetMetres: number): number =>
  -(settlementAt(trough, offsetMetres) / axisDepthMetres) * (1 - (offsetMetres / trough.widthMetres) ** 2)

/**
 * Greatest extension of ground that is stretched by `lateralStrain` (extension positive) and sheared by an angular
 * distortion, both without unit: Mohr's circle (as in Boone 2001, from memory).
 */
export const principalExtension = (lateralStrain: number, angularDistortion: number): number =>
  lateralStrain / 2 + Math.hypot(lateralStrain / 2, angularDistortion / 2)
