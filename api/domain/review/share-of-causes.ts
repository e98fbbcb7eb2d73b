import type { Cause } from './cause.ts'

/**
 * What share of belief falls on each cause if one of them is the only one and they began alike but for what they are
 * given: its odds among those of all, from 0 to 1. As judged as the weights are.
 */
export function shareOfCauses<C extends { readonly cause: Cause; readonly decibans: number }>(
  ranked: readonly C[],
): readonly (C & { readonly share: number })[] {
  const most = ranked.reduce((one, { decibans }) => Math.max(one, decibans), Number.NEGATIVE_INFINITY)
  const odds = ranked.map(({ decibans }) => 10 ** ((decibans - most) / 10))
  const all = odds.reduce((sum, one) => sum + one, 0)
  return ranked.map((one, i) => ({ ...one, share: (odds[i] as number) / all }))
}
