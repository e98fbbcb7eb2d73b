import { madToSigma, mean, median, medianAbsoluteDeviation } from '../../statistics/spread.ts'
import { type Evidence, lacks, type ReviewRule, speaks } from '../evidence.ts'
import type { ReviewCase, Trace } from '../review-case.ts'
import { amountText, changeText } from '../wording.ts'

const id = 'face-checksum'
const fewestSurveys = 4
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
  const { measure, change, scatter, unit } = found
  const faces = measure === 'checksum-a' ? 'A' : 'B'
  const sentence = `The mean checksum of ${faces} of the last survey is ${changeText(change, unit)} from the usual, where others scatter by ${amountText(scatter, unit)}: the probe read differently in one pass. Survey again.`
  const picture = {
    series: [reviewed.subject.series, ...reviewed.checksums.slice(0, 3).map(({ series }) => series)],
    fromEpochMs: reviewed.fromEpochMs,
    untilEpochMs: reviewed.untilEpochMs,
  }
  const seen = { figure: { value: change, low: null, high: null, unit }, picture }
  return [speaks(id, 'sensor', 14, sentence, seen), speaks(id, 'ground', -3, sentence, seen)]
}

const borneOut = (reviewed: ReviewCase): readonly Evidence[] => [
  speaks(
    id,
    'sensor',
    -3,
    `The mean checksums of the last survey of ${reviewed.subject.point} are as they were before.`,
  ),
]

interface Checksum {
  readonly measure: 'checksum-a' | 'checksum-b'
  readonly change: number
  readonly scatter: number
  readonly unit: string
}

/** The last survey's mean over the depths, less the median of those of the surveys before. */
function lastSurvey(traces: readonly Trace[]): Omit<Checksum, 'measure'> | null {
  const surveys = new Map<number, number[]>()
  for (const { atEpochMs, values } of traces)
    atEpochMs.forEach((at, i) => {
      // Depths of one survey carry its one instant.
      surveys.set(at, [...(surveys.get(at) ?? []), values[i] as number])
    })
  const means = [...surveys].sort(([one], [other]) => one - other).map(([, values]) => mean(values))
  if (means.length < fewestSurveys) return null
  const before = means.slice(0, -1)
  const [first] = traces
  const ownScatter = (first?.repeatability ?? 0) / Math.sqrt(Math.max(1, traces.length))
  const scatter = Math.max(madToSigma * medianAbsoluteDeviation(before), ownScatter, 1e-12)
  return { change: (means.at(-1) as number) - median(before), scatter, unit: first?.unit ?? '' }
}
