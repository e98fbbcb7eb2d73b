import type { ContradictedVerdicts } from '#contract/contradicted-verdicts.ts'

/** How many verdicts hold, against how many something speaks, and which could not be judged: these are in neither count. */
export function sentenceOfContradicted(
  { held, verdicts, unjudged }: Pick<ContradictedVerdicts, 'held' | 'verdicts' | 'unjudged'>,
  when: string,
): string {
  if (held === 0) return `No verdict holds at this site, ${when}.`
  const of = `${held} ${held === 1 ? 'verdict that holds' : 'verdicts that hold'}`
  const names = unjudged.map(({ verdict }) => verdict).join(', ')
  const judged = held - unjudged.length
  if (judged === 0)
    return `${held === 1 ? 'The verdict that holds could not' : `None of the ${of} could`} be held against anything: ${names}, ${when}.`
  const begin =
    unjudged.length === 0 ? '' : `Of ${of}, ${unjudged.length} could not be held against anything: ${names}. `
  const those = unjudged.length === 0 ? of : `the other ${judged}`
  return verdicts.length === 0
    ? `${begin}Nothing that these rules look for speaks against ${unjudged.length === 0 ? `the ${of}` : those}, ${when}.`
    : `${begin}Newer data speak against ${verdicts.length} of ${those}, ${when}. Each holds until a person withdraws or overrides it.`
}
