import { findOddities } from '#domain/review/oddity.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import { openReviewSample } from '../support/review-sample.ts'
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
    ]
  } finally {
    await sample.close()
  }
}
