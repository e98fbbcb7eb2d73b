import { madToSigma, mean, median, medianAbsoluteDeviation } from '../../statistics/spread.ts'
import { studentQuantile } from '../../statistics/student-t.ts'
import { type Evidence, lacks, type ReviewRule, speaks } from '../evidence.ts'
import { intervalSentence } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import type { ReviewCase, Trace } from '../review-case.ts'
import { amountText, changeText, pictureOf } from '../wording.ts'

const id = 'face-checksum'
const fewestSurveys = 8
/** Surveys before that one is held against. */
const nearest = 3
/** Depths read within so long are of one survey. */
const oneSurveyMs = 12 * 3_600_000
/** A survey's mean checksum stands off by so many times what the others scatter. */
const standsOff = 5

/** Checksums of opposite faces of a traversed inclinometer: a probe that reads differently in one pass shows in them. */
export const faceChecksum: ReviewRule = {
  id,
  title: 'Checksum of opposite faces',
  tells: ['value'],
  reason:
    'The sum of opposite faces holds nothing of how the casing leans. One that changes with a survey tells of the probe, its warming or its cable; one that stays bears the survey out.',
  source: 'ISO 18674-3:2017, on checksums of traversed inclinometers; from memory',
  weigh(reviewed) {
    const { checksums } = reviewed
    if (checksums.length === 0) return []
    const weighed = (['checksum-a', 'checksum-b'] as const).flatMap((measure) => {
      const found = lastSurvey(checksums.filter((one) => one.measure === measure))
      return found ? [{ measure, ...found }] : []
    })
    if (weighed.length === 0)
      return [lacks(id, 'sensor', `Fewer than ${fewestSurveys} surveys: no usual checksum to compare with.`)]
    const off = weighed.filter(({ change, scatter }) => Math.abs(change) > standsOff * scatter)
    return off.length > 0 ? off.flatMap((one) => standingOff(reviewed, one)) : borneOut(reviewed)
  },
}

function standingOff(reviewed: ReviewCase, found: Checksum): readonly Evidence[] {
  const { measure, change, scatter, unit, depths } = found
  // A deviation is half the difference of its faces: what one of them is off by goes in by half, at every depth.
  const summed = (Math.abs(change) / 2) * depths
  const { movement } = looksAt(reviewed)
  const isMost = isBeyondChance(movement) && summed > 0.5 * Math.abs(movement.size)
  const faces = measure === 'checksum-a' ? 'A' : 'B'
  const figure = { value: change, low: change - found.half, high: change + found.half, unit }
  const interval = intervalSentence(
    'Its departure',
    figure,
    `by what ${found.before} surveys before departed from those just before them`,
  )
  const sentence = `The mean checksum of ${faces} of the last survey is ${changeText(change, unit)} from what those before lead one to await, where others scatter by ${amountText(scatter, unit)}: the probe read differently in one pass. Over ${depths} depths that sums to ${amountText(summed, unit)}. Survey again.${interval}`
  const seen = { figure, picture: pictureOf(reviewed, ...reviewed.checksums.slice(0, 3)) }
  return [
    speaks(id, 'sensor', isMost ? 18 : 14, sentence, seen),
    speaks(id, 'ground', isMost ? -8 : -3, sentence, seen),
  ]
}

const borneOut = (reviewed: ReviewCase): readonly Evidence[] => [
  speaks(
    id,
    'sensor',
    -3,
    `The mean checksums of the last survey of ${reviewed.subject.point} are as they were before.`,
    { picture: pictureOf(reviewed, ...reviewed.checksums.slice(0, 3)) },
  ),
]

interface Checksum {
  readonly measure: 'checksum-a' | 'checksum-b'
  readonly change: number
  readonly scatter: number
  /** Half the 95 % interval of the change, and the surveys before that it rests on. */
  readonly half: number
  readonly before: number
  readonly unit: string
  readonly depths: number
}

/** The last survey's mean over the depths, less what the surveys just before and their creep lead one to await. */
function lastSurvey(traces: readonly Trace[]): Omit<Checksum, 'measure'> | null {
  const read = traces
    .flatMap(({ atEpochMs, values }) => atEpochMs.map((at, i) => ({ at, value: values[i] as number })))
    .sort((one, other) => one.at - other.at)
  const surveys: { at: number; values: number[] }[] = []
  for (const { at, value } of read) {
    const last = surveys.at(-1)
    if (last && at - last.at < oneSurveyMs) last.values.push(value)
    else surveys.push({ at, values: [value] })
  }
  const means = surveys.map(({ values }) => mean(values))
  if (means.length < fewestSurveys) return null
  // Against the ones just before: checksums creep with the seasons, and one odd survey must not shift what is usual.
  const steps = means.slice(nearest).map((own, i) => own - median(means.slice(i, i + nearest)))
  const before = steps.slice(0, -1)
  const [first] = traces
  const ownScatter = (first?.repeatability ?? 0) / Math.sqrt(Math.max(1, traces.length))
  const scatter = Math.max(madToSigma * medianAbsoluteDeviation(before), ownScatter, 1e-12)
  return {
    change: (steps.at(-1) as number) - median(before),
    scatter,
    half: halfOf(before, ownScatter),
    before: before.length,
    unit: first?.unit ?? '',
    depths: traces.length,
  }
}

/**
 * Half the 95 % interval of how far one departs beyond its scatter: Student's t of what those before scatter about their mean,
 * which one odd survey among them widens; their median has π / 2 of a mean's variance.
 */
function halfOf(before: readonly number[], leastScatter: number): number {
  const middle = mean(before)
  const freedom = before.length - 1
  const squares = before.reduce((sum, one) => sum + (one - middle) ** 2, 0)
  const scatter = Math.max(leastScatter, Math.sqrt(squares / freedom))
  return studentQuantile(0.975, freedom) * scatter * Math.sqrt(1 + Math.PI / (2 * before.length))
}
