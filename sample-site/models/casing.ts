import { dayMs, programme } from './programme.ts'

/** Casing IC-01, 15 m behind the wall, and the probe that is drawn through it; mm over an interval of 0.5 m. */
export type Axis = 'a' | 'b'

/**
 * How far the top of an interval leans over its base as the casing was set, mm: it stands 1.4° and 0.2° off the vertical,
 * and its 3 m lengths were grouted in bent, so that a reading taken at a wrong depth differs.
 */
export function casingDeviationMillimetres(axis: Axis, depthMetres: number): number {
  const turn = (2 * Math.PI * depthMetres) / 3
  const bow = (Math.PI * depthMetres) / 13
  return axis === 'a' ? 11 + 5 * Math.sin(turn - 0.4) + 2 * Math.sin(bow) : -2 + 6 * Math.cos(turn)
}

/** What the probe reads in a vertical casing, mm: it creeps from survey to survey and goes out between two faces. */
export function probeBiasMillimetres(axis: Axis, epochMs: number): number {
  const days = (epochMs - programme.startsAt) / dayMs
  return axis === 'a' ? 1.8 + 0.35 * Math.sin(days / 31) : -1.1 + 0.25 * Math.cos(days / 40)
}

/**
 * Planted: on 22 June the probe was let down before it had taken the temperature of the casing, and read A too high by
 * this, mm, in its first pass only. Half of it stays in the mean of two faces.
 */
export function coldProbeMillimetres(epochMs: number): number {
  const after = epochMs - programme.probeColdOn
  return after >= 0 && after < dayMs ? 0.8 : 0
}
