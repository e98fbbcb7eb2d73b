import type { DerivedBundle, DerivedOutput } from './derived-bundle.ts'

/** The outputs of a bundle that some series go into. */
export function outputsFrom(
  { rule, slots, outputs }: DerivedBundle,
  series: ReadonlySet<string>,
): readonly DerivedOutput[] {
  const touched = new Set(
    [...slots.keys()].filter((slot) => slots[slot]?.series.some((id) => series.has(id))),
  )
  if (touched.size === 0) return []
  if (rule.kind !== 'combination') return outputs
  return outputs.filter(
    ({ of }) => of === 'whole' || rule.combinations[of]?.terms.some(({ slot }) => touched.has(slot)),
  )
}
