import { findOddities } from '#domain/review/oddity.ts'
import { judgeSeries, patchEvidence } from '#domain/review/patch-evidence.ts'
import { patchMovement } from '#domain/review/patch-movement.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { openReviewSample, type ReviewSample } from '../support/review-sample.ts'
import { type Measurement, quantile } from './measurement.ts'

const day = '2027-08-10'
const days = 60
const asked = 40

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

/** Patches as the page reviews them, against the same series put together and reviewed one by one, in processor time: sharing is what a patch gains. */
async function ofPatches(sample: ReviewSample): Promise<Measurement[]> {
  const found: Measurement[] = []
  for (const [point, radiusMetres, measure] of patches) {
    const ask = () => sample.patchAt(point, radiusMetres, measure, day, days)
    const series = [...(await ask()).cases].map(({ subject }) => subject.series)
    const together = await leastOf(async () => {
      const { cases } = await ask()
      return processorMs(() => judge([...cases]))
    })
    const alone = await leastOf(async () => {
      let spent = 0
      const cases: ReviewCase[] = []
      for (const id of series) {
        const one = await sample.caseAt(id, day, days)
        cases.push(one)
        spent += processorMs(() => judgeSeries(one))
      }
      return spent + processorMs(() => patchMovement(...movementOf(cases)))
    })
    const fetched = await leastOf(async () => (await ask()).fetchedMs)
    found.push({
      name: `evidence for a patch of ${series.length} series of ${measure} within ${radiusMetres} m of ${point}, ${days} days, processor time after its readings are fetched (${fetched.toFixed(0)} ms)`,
      ours: together,
      unit: 'ms',
      peer: { name: 'the same series put together one by one', value: alone },
      goal: 'under 1000',
    })
  }
  return found
}

const movementOf = (cases: readonly ReviewCase[]) =>
  [cases.map(({ subject }) => subject), cases[0]?.fromEpochMs ?? 0, cases[0]?.untilEpochMs ?? 0] as const

function judge(cases: readonly ReviewCase[]): void {
  patchEvidence(cases.map(judgeSeries))
  patchMovement(...movementOf(cases))
}

/** Of this process while something runs: others share the machine. */
function processorMs(run: () => void): number {
  const before = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

/** The least of three: the first makes the code warm, and what disturbs only adds. */
async function leastOf(measure: () => Promise<number>): Promise<number> {
  const times = [await measure(), await measure(), await measure()]
  return Math.min(...times)
}
