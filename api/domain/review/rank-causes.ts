import { type Cause, causes } from './cause.ts'
import type { Evidence, ReviewRule } from './evidence.ts'
import type { Oddity } from './oddity.ts'
import type { ReviewCase } from './review-case.ts'
import { reviewRules } from './review-rules.ts'

/** A cause with all that was found about it. */
export interface RankedCause {
  readonly cause: Cause
  /** Sum of what speaks for and against it, and for the ground the start that it is given. */
  readonly decibans: number
  readonly evidence: readonly Evidence[]
}

/** The evidence table: causes, the best borne out first, and what may be made of it. */
export interface EvidenceTable {
  readonly ranked: readonly RankedCause[]
  readonly oddity: Oddity
  /** Of values: true unless another cause leads the ground by `leadToDoubt`. */
  readonly treatAsReal: boolean
  /** In words; a person decides. */
  readonly sentence: string
}

/** The ground begins with this: what is read is taken as real until it is shown otherwise. */
export const startOfGround = 6
/** What a cause begins with: only the ground has something, and only where a value is asked about, one or many. */
export const startOfCause = (cause: Cause, oddity: Oddity): number =>
  cause === 'ground' && isOfValues(oddity) ? startOfGround : 0

const isOfValues = (oddity: Oddity): boolean => oddity === 'value' || oddity === 'reading'

/** Ten to one against the ground, before anything else is said than to treat it as real. */
export const leadToDoubt = 10

/** Weighs a case by all rules. Ranks and explains; it decides nothing, and no level moves by it. */
export function weighCase(
  reviewed: ReviewCase,
  oddity: Oddity,
  rules: readonly ReviewRule[] = reviewRules,
): EvidenceTable {
  const found = rules.filter(({ tells }) => tells.includes(oddity)).flatMap((rule) => rule.weigh(reviewed))
  const ranked = causes
    .map((cause): RankedCause => {
      const evidence = found
        .filter((one) => one.cause === cause)
        .toSorted((one, other) => Math.abs(other.decibans) - Math.abs(one.decibans))
      const start = startOfCause(cause, oddity)
      return { cause, decibans: evidence.reduce((sum, { decibans }) => sum + decibans, start), evidence }
    })
    .toSorted((one, other) => other.decibans - one.decibans)
  const [first] = ranked
  const ground = ranked.find(({ cause }) => cause === 'ground')
  const lead = (first?.decibans ?? 0) - (ground?.decibans ?? 0)
  const treatAsReal = lead < leadToDoubt
  const sentence = !isOfValues(oddity)
    ? notOfValues(ranked)
    : reviewed.subject.values.length === 0
      ? 'No reading is known in this stretch: nothing can be concluded about what is measured, nor that it stood still.'
      : sentenceOf(ranked, treatAsReal, lead)
  return { oddity, ranked, treatAsReal: treatAsReal || !isOfValues(oddity), sentence }
}

function sentenceOf(ranked: readonly RankedCause[], treatAsReal: boolean, lead: number): string {
  const [first] = ranked
  const missing = ranked
    .flatMap(({ evidence }) => evidence)
    .filter(({ stands }) => stands === 'missing').length
  const gaps =
    missing === 0
      ? ''
      : ` ${missing} ${missing === 1 ? 'thing that would tell is' : 'things that would tell are'} missing.`
  if (!first || first.cause === 'ground')
    return `Nothing speaks so strongly for another cause as for the ground: treat it as real.${gaps}`
  const odds = `the evidence favours the ${first.cause} over the ground by ${oddsText(lead)}`
  return treatAsReal
    ? `Treat it as real until shown otherwise; ${odds}, which is not enough to doubt the reading.${gaps}`
    : `Most of what was found points to the ${first.cause}: ${odds}. A person decides, and until then it is treated as real.${gaps}`
}

/** Readings that are missing or stand at the wrong time are no reason to doubt those that are there. */
function notOfValues(ranked: readonly RankedCause[]): string {
  const [first] = ranked
  return !first || first.decibans <= 0
    ? 'Nothing tells where this comes from.'
    : `Most of what was found points to the ${first.cause}. It says nothing against the values that were read.`
}

/** To two digits: the weights are judged. */
const oddsText = (decibans: number): string => {
  const odds = 10 ** (decibans / 10)
  return odds >= 1000 ? 'more than 1000 to 1' : `about ${Number(odds.toPrecision(2))} to 1`
}
