import { agreesAgain, changeStays } from './after-the-verdict.ts'
import type { Cause } from './cause.ts'
import type { ReviewRule } from './evidence.ts'
import { type EvidenceTable, leadToDoubt } from './rank-causes.ts'
import type { ReviewCase } from './review-case.ts'
import type { Contradiction, VerdictToJudge } from './verdict-to-judge.ts'
import { decibansText } from './wording.ts'

/** The same quantity read again, which owes nothing to the sensor; what only shows in another quantity bears too little out. */
const bearsOut: readonly ReviewRule['id'][] = ['same-quantity', 'by-hand']
/** Weaker support is no reason to look again; support must have grown by as much as makes it three times likelier. */
const leastSupport = 5
/** What the lead must have grown by since: the evidence then was before whoever found it. */
const leastGrowth = 5

/**
 * What now known speaks against a verdict, each with its figure; empty: nothing that these rules know of. A case that
 * covers the verdict's stretch and what came after it, and its table of values, are held against the evidence as it
 * stood. It says what to look at again: a person reopens a verdict, this does not.
 */
export function contradictionsOf(
  verdict: VerdictToJudge,
  reviewed: ReviewCase,
  table: EvidenceTable,
): readonly Contradiction[] {
  return [
    ...overtaken(verdict, table),
    ...borneOut(verdict, table),
    ...changeStays(verdict, reviewed),
    ...agreesAgain(verdict, reviewed),
  ]
}

function overtaken({ cause, evidence }: VerdictToJudge, { ranked }: EvidenceTable): readonly Contradiction[] {
  const [first, second] = ranked
  if (cause === null || first === undefined || second === undefined || first.cause === cause) return []
  const sumThen = (of: Cause) =>
    evidence.reduce((sum, line) => sum + (line.cause === of ? line.decibans : 0), 0)
  const named = ranked.find((one) => one.cause === cause)
  const held = named ?? second
  const lead = first.decibans - held.decibans
  const leadThen = evidence.length === 0 ? null : sumThen(first.cause) - sumThen(held.cause)
  if (lead < leadToDoubt || (leadThen !== null && lead - leadThen < leastGrowth)) return []
  const then =
    leadThen === null
      ? 'no evidence was kept with it'
      : `${decibansText(sumThen(first.cause))} to ${decibansText(sumThen(held.cause))} when it was found`
  const says = named ? `It is laid on the ${cause}` : 'The causes were not told apart'
  return [
    {
      kind: 'overtaken',
      sentence: `${says}; the evidence now puts the ${first.cause} first, ${decibansText(first.decibans)} to ${decibansText(held.decibans)} for the ${held.cause} (${then}).`,
      figure: { value: lead, low: null, high: null, unit: 'dB of odds' },
    },
  ]
}

function borneOut(
  { verdict, evidence }: VerdictToJudge,
  { ranked }: EvidenceTable,
): readonly Contradiction[] {
  if (verdict === 'accepted') return []
  const ground = ranked.find(({ cause }) => cause === 'ground')?.evidence ?? []
  return ground.flatMap(({ rule, decibans, sentence }): Contradiction[] => {
    if (!bearsOut.includes(rule) || decibans < leastSupport) return []
    const then = evidence.reduce(
      (most, line) => (line.cause === 'ground' && line.rule === rule ? Math.max(most, line.decibans) : most),
      0,
    )
    if (decibans - then < leastSupport) return []
    return [
      {
        kind: 'borne-out',
        sentence: `It was ${verdict}, and is borne out: ${sentence}`,
        figure: { value: decibans, low: null, high: null, unit: 'dB of odds' },
      },
    ]
  })
}
