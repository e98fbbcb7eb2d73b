import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import type { Trail } from '#domain/reduction/trail.ts'
import type { Recipe } from '../slices/recipe.ts'
import type { SliceIndex } from '../slices/slice-index.ts'

/**
 * A trail of a round in which not every place was read, which has no value, with what plan and histories show meanwhile:
 * the last complete round, which is as old as it is.
 */
export function withLastCompleteRound(
  trail: Trail,
  { rule }: DerivedBundle,
  { numberOf }: Pick<Recipe, 'numberOf'>,
  { months }: Pick<SliceIndex, 'months'>,
): Trail {
  if (rule.kind !== 'structure-line' || trail.value !== null) return trail
  const number = numberOf.get(trail.series)
  const last = Object.values(months)
    .flatMap(({ latest }) => latest.filter(({ series }) => series === number))
    .reduce((newest, { atEpochMs }) => Math.max(newest, atEpochMs), -Infinity)
  const shown =
    last < trail.atEpochMs && last > -Infinity
      ? `the last complete round, of ${new Date(last).toISOString().slice(0, 16).replace('T', ' ')} UTC`
      : 'the complete round before it, if there was one'
  return {
    ...trail,
    cautions: [
      `${trail.series}: the round at this instant is not complete, so it has no value. Plan and histories show ${shown}: that is older, and lateness counts from there.`,
      ...trail.cautions,
    ],
  }
}
