import { findOddities } from '#domain/review/oddity.ts'
import { judgeSeries, patchEvidence } from '#domain/review/patch-evidence.ts'
import { patchMovement } from '#domain/review/patch-movement.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { contradictionsNow } from '#domain/review/verdict-again.ts'
import type { Verdict } from '#domain/site/tables.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { lookAgain } from '../../api/review/look-again.ts'
import { openReviewSample, type ReviewSample } from '../support/review-sample.ts'
import { withVerdicts } from '../support/with-verdicts.ts'
import { type Measurement, quantile } from './measurement.ts'
import { measureVerdictAtBound } from './verdict-at-bound.ts'

const day = '2027-08-10'
const days = 60
const asked = 40
const verdictsHeld = 20
const dayMs = 86_400_000

/** How soon the evidence about any point of the sample stands, from a warm engine: its readings fetched, put together and weighed. */
export async function measureReview(): Promise<Measurement[]> {
  const sample = await openReviewSample()
  try {
    const every = Math.floor(sample.series.length / asked)
    const series = sample.series.filter((_, place) => place % every === 0)
    for (const id of series.slice(0, 3)) await sample.caseAt(id, day, days)
    const whole: number[] = []
    const fetched: number[] = []
    for (const id of series) {
      const begun = performance.now()
      const reviewed = await sample.caseAt(id, day, days)
      fetched.push(performance.now() - begun)
      for (const { oddity } of findOddities(reviewed)) weighCase(reviewed, oddity)
      whole.push(performance.now() - begun)
    }
    return [
      {
        name: `evidence for every oddity of ${series.length} series of the sample, ${days} days, native engine, 95th percentile`,
        ours: quantile(whole, 0.95),
        unit: 'ms',
        peer: { name: 'fetching the same readings alone', value: quantile(fetched, 0.95) },
        goal: 'under 1000',
      },
      ...(await ofPatches(sample)),
      await ofVerdicts(sample),
      await measureVerdictAtBound(sample, Date.parse(`${day}T00:00:00Z`)),
    ]
  } finally {
    await sample.close()
  }
}

const patches: readonly (readonly [point: string, radiusMetres: number, measure: Measure])[] = [
  ['SP-31', 25, 'settlement'],
  ['PZ-05C', 120, 'pore-pressure'],
  ['IC-01', 15, 'deflection'],
  ['TL-11', 60, 'tilt'],
]

/** Patches as the page reviews them, against the same series asked for and reviewed one by one, in processor time: sharing is what a patch gains. */
async function ofPatches(sample: ReviewSample): Promise<Measurement[]> {
  const found: Measurement[] = []
  for (const [point, radiusMetres, measure] of patches) {
    const ask = () => sample.patchAt(point, radiusMetres, measure, day, days)
    const series = [...(await ask()).cases].map(({ subject }) => subject.series)
    const together = await leastProcessorMs(async () => judge([...(await ask()).cases]))
    const alone = await leastProcessorMs(async () => {
      const cases: ReviewCase[] = []
      for (const id of series) cases.push(await sample.caseAt(id, day, days))
      judge(cases)
    })
    found.push({
      name: `evidence and common movement of a patch, ${series.length} series of ${measure} within ${radiusMetres} m of ${point}, ${days} days, native engine, processor time`,
      ours: together,
      unit: 'ms',
      peer: { name: 'the same series asked for and reviewed one by one', value: alone },
      goal: 'under 1000',
    })
  }
  return found
}

/** Verdicts held against what is published, as a server does after an arrival, against the same cases put together as a page does. */
async function ofVerdicts(sample: ReviewSample): Promise<Measurement> {
  const presentEpochMs = Date.parse(`${day}T00:00:00Z`)
  const verdicts = sample.series
    .filter((_, place) => place % Math.floor(sample.series.length / verdictsHeld) === 0)
    .map(
      (series, place): Verdict => ({
        ...{ id: `V-${place}`, series, verdict: 'doubtful', cause: 'sensor', reason: 'bench' },
        ...{ fromAt: presentEpochMs - 30 * dayMs, untilAt: null, at: presentEpochMs - 29 * dayMs },
        ...{ author: 'bench', alternatives: '' },
      }),
    )
  const dependencies = withVerdicts(sample, verdicts, presentEpochMs)
  const look = () => lookAgain(dependencies, 'skarrow-quay', presentEpochMs, null)
  const ours = await leastProcessorMs(async () => void (await look()))
  const peer = await leastProcessorMs(async () => {
    for (const verdict of verdicts)
      contradictionsNow(verdict, [], await sample.caseAt(verdict.series, day, days))
  })
  const last = await look()
  const nothingNew = await leastProcessorMs(
    async () => void (await lookAgain(dependencies, 'skarrow-quay', presentEpochMs, last)),
  )
  return {
    name: `${verdicts.length} verdicts held against what is published after an arrival, processor time (${nothingNew.toFixed(1)} ms where nothing new came)`,
    ours,
    unit: 'ms',
    peer: { name: 'the same cases put together as an open page does', value: peer },
    goal: 'at most a twentieth of a core: it rests twenty times as long',
  }
}

function judge(cases: readonly ReviewCase[]): void {
  patchEvidence(cases.map(judgeSeries))
  const [first] = cases
  if (first)
    patchMovement(
      cases.map(({ subject }) => subject),
      first.fromEpochMs,
      first.untilEpochMs,
    )
}

/** Of this process on all its threads, the least of three: others share the machine, and the first run makes the code warm. */
async function leastProcessorMs(run: () => Promise<void>): Promise<number> {
  let least = Number.POSITIVE_INFINITY
  for (let round = 0; round < 3; round++) {
    const before = process.cpuUsage()
    await run()
    const { user, system } = process.cpuUsage(before)
    least = Math.min(least, (user + system) / 1000)
  }
  return least
}
