import { afterAll, beforeAll, expect, test } from 'vitest'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { type KnownThen, knownThen } from '../../../web/derived/known-then.ts'
import { statesAt } from '../../../web/derived/states-at.ts'
import { seriesStatesAt } from '../../../web/queries/series-states-at.ts'
import { standingOf } from '../../../web/ui/state-scale.ts'
import { openReviewSample, type ReviewSample } from '../../support/review-sample.ts'

const hourMs = 3_600_000
const quarterMs = 900_000
let sample: ReviewSample

beforeAll(async () => {
  sample = await openReviewSample()
})
afterAll(() => sample.close())

const levels = () => valueLevels(sample.site.triggerLevels, sample.site.stages)
const knownAt = (instant: string): Promise<KnownThen> =>
  knownThen({ atEpochMs: Date.parse(instant), series: sample.site.series, levels: levels() }, sample.ask)
const measuredAt = async (instant: string) => {
  const atEpochMs = Date.parse(instant)
  const columns = await sample.ask(seriesStatesAt({ atEpochMs }))
  const states = statesAt(columns, sample.site.series, levels(), atEpochMs)
  return new Map(states.map((state) => [state.series, state]))
}

/*
 * A3 of truth/anomalies.csv: from 3 to 17 August one message in seven of LG-19 gets through, and the memory file of 18 August
 * fills the rest.
 */
test('in the radio shadow a strut that was filled in later is late as known then, and within levels as measured', async () => {
  const instant = '2027-08-10T06:00:00Z'
  const [known, measured] = [await knownAt(instant), await measuredAt(instant)]
  for (const id of ['ST-05/force', 'ST-06/force', 'ST-07/force', 'ST-08/force']) {
    const series = sample.numberOf(id)
    const [then, shown] = [known.states.get(series), measured.get(series)]
    expect([id, standingOf(shown), standingOf(then)]).toEqual([id, 'within', 'late'])
    expect(Date.parse(instant) - (then?.atEpochMs ?? 0)).toBeGreaterThan(2 * hourMs)
    expect(new Date(known.later.get(series)?.receivedAtEpochMs ?? 0).toISOString().slice(0, 10)).toBe(
      '2027-08-18',
    )
  }
})

test('what comes in weekly files is as old as the last file at any day of the week', async () => {
  const series = sample.numberOf('TL-11/tilt')
  for (const day of ['2027-08-10', '2027-08-13', '2027-08-15']) {
    const { states, later } = await knownAt(`${day}T12:00:00Z`)
    // The file of Monday 9 August ends with the Sunday; the next comes on the 16th.
    expect(new Date(states.get(series)?.atEpochMs ?? 0).toISOString().slice(0, 10)).toBe('2027-08-08')
    expect(new Date(later.get(series)?.receivedAtEpochMs ?? 0).toISOString().slice(0, 10)).toBe('2027-08-16')
  }
  const after = await knownAt('2027-08-16T12:00:00Z')
  expect(new Date(after.states.get(series)?.atEpochMs ?? 0).toISOString().slice(0, 10)).toBe('2027-08-15')
})

test('what all data say was known at a cut-off is what a data set frozen by it holds', async () => {
  const instant = '2027-08-10T06:00:00Z'
  const [known, frozen] = [await knownAt(instant), await sample.frozenStates(Date.parse(instant))]
  const apart = frozen.states.filter((one) => {
    const then = known.states.get(one.series)
    return then?.atEpochMs !== one.atEpochMs || then?.value !== one.value || then.level !== one.level
  })
  // But for values of the last quarter of an hour, of which slices do not tell when they came: they count later.
  const within = (atEpochMs: number | null) => (atEpochMs ?? 0) > Date.parse(instant) - quarterMs
  expect(apart.filter((one) => !within(one.atEpochMs))).toEqual([])
  const older = apart.filter((one) => (known.states.get(one.series)?.atEpochMs ?? 0) < (one.atEpochMs ?? 0))
  expect(older.length).toBe(apart.length)
  // And most of all series were compared, those without any value by then among them.
  expect(frozen.states.length - apart.length).toBeGreaterThan(100)
  expect(frozen.states.filter((one) => one.late).length).toBeGreaterThan(4)
})
