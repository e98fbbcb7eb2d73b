import { type Cause, causes } from './cause.ts'
import { looksAt } from './looks.ts'
import { isBeyondChance } from './movement.ts'
import { findOddities, type Oddity } from './oddity.ts'
import { weighCase } from './rank-causes.ts'
import type { ReviewCase } from './review-case.ts'

/** What a review of one series of a patch comes to. */
export interface JudgedSeries {
  readonly series: string
  readonly point: string
  /** Causes that lead, each with the oddity that it leads in; none where nothing odd is told. */
  readonly leading: readonly {
    readonly oddity: Oddity
    readonly cause: Cause
    readonly decibans: number
    /** Of values: true unless another cause leads the ground by ten to one. */
    readonly treatAsReal: boolean
  }[]
  /** Causes that more speaks for than against, of any of its oddities. */
  readonly spokenFor: readonly Cause[]
  /** Why it could not be judged; null: it was. */
  readonly notJudged: string | null
}

/** One line of a patch's evidence: a cause and the series that bear it. */
export interface PatchCause {
  readonly cause: Cause
  /** It is borne out best in them. */
  readonly leads: readonly JudgedSeries[]
  /** More speaks for it than against, but another leads. */
  readonly alsoFor: readonly JudgedSeries[]
}

export interface PatchEvidence {
  readonly causes: readonly PatchCause[]
  readonly nothingOdd: readonly JudgedSeries[]
  readonly notJudged: readonly JudgedSeries[]
  readonly sentence: string
}

/**
 * One series of a patch, weighed by the rules of every review. Of its values only a change told from chance is asked about; with too
 * few readings, or none, it is not judged, and that is said.
 */
export function judgeSeries(reviewed: ReviewCase): JudgedSeries {
  const { subject } = reviewed
  const { movement } = looksAt(reviewed)
  const odd = findOddities(reviewed).flatMap(({ oddity }) =>
    oddity === 'value' && !isBeyondChance(movement) ? [] : [oddity],
  )
  const tables = odd.map((oddity) => weighCase(reviewed, oddity))
  const count = subject.values.length
  return {
    series: subject.series,
    point: subject.point,
    leading: tables.flatMap(({ oddity, ranked, treatAsReal }) => {
      const [first] = ranked
      return first && first.decibans > 0
        ? [{ oddity, cause: first.cause, decibans: first.decibans, treatAsReal }]
        : []
    }),
    spokenFor: causes.filter((cause) =>
      tables.some(({ ranked }) =>
        ranked.some(
          (one) =>
            one.cause === cause && one.decibans > 0 && one.evidence.some(({ stands }) => stands === 'for'),
        ),
      ),
    ),
    notJudged:
      movement === null
        ? count === 0
          ? 'no reading in this stretch'
          : `${count} ${count === 1 ? 'reading' : 'readings'}, too few to tell a change from chance`
        : null,
  }
}

/** How many series of a patch bear each cause, the most first; what could not be judged is counted and named. */
export function patchEvidence(judged: readonly JudgedSeries[]): PatchEvidence {
  const isOdd = ({ leading }: JudgedSeries) => leading.length > 0
  const rows = causes
    .map((cause): PatchCause => {
      const leads = judged.filter(({ leading }) => leading.some((one) => one.cause === cause))
      return {
        cause,
        leads,
        alsoFor: judged.filter((one) => one.spokenFor.includes(cause) && !leads.includes(one)),
      }
    })
    .toSorted(
      (one, other) => other.leads.length - one.leads.length || other.alsoFor.length - one.alsoFor.length,
    )
  const notJudged = judged.filter(({ notJudged }) => notJudged !== null)
  const nothingOdd = judged.filter((one) => !isOdd(one) && one.notJudged === null)
  return { causes: rows, nothingOdd, notJudged, sentence: sentenceOf(judged, notJudged.length) }
}

function sentenceOf(judged: readonly JudgedSeries[], notJudged: number): string {
  const changed = judged.filter(({ leading }) => leading.some(({ oddity }) => oddity === 'value'))
  const doubted = changed.filter(({ leading }) =>
    leading.some(({ oddity, treatAsReal }) => oddity === 'value' && !treatAsReal),
  )
  const not =
    notJudged === 0
      ? ''
      : ` ${notJudged} of ${judged.length} could not be judged: nothing is concluded of ${notJudged === 1 ? 'it' : 'them'}, nor that ${notJudged === 1 ? 'it' : 'they'} stood still.`
  if (changed.length === 0)
    return `None of the ${judged.length - notJudged} series judged shows a change told from chance.${not}`
  return `${changed.length} of ${judged.length - notJudged} series judged changed. Treat all of them as real until shown otherwise${
    doubted.length === 0
      ? ''
      : `; in ${doubted.map(({ point }) => point).join(', ')} most of what was found points to another cause than the ground, and a person decides`
  }.${not}`
}
