import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { contradictionsNow } from '#domain/review/verdict-again.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { lookAgain } from '../../../api/review/look-again.ts'
import type { Store } from '../../../api/store/store.ts'
import { openReviewSample, type ReviewSample } from '../../support/review-sample.ts'
import { withVerdicts } from '../../support/with-verdicts.ts'

// Whatever judges on this thread, which stands for the one that answers pages, fails; what is found comes from another.
vi.mock('../../../api/review/judge-verdicts.ts', () => ({
  judgeVerdicts: () => Promise.reject(new Error('judged on the thread that answers pages')),
}))

const code = 'skarrow-quay'
const day = '2027-08-20'
const presentEpochMs = Date.parse(`${day}T00:00:00Z`)
const daysBefore = (days: number) => presentEpochMs - days * 86_400_000

const verdict = (id: string, given: Partial<Verdict>): Verdict => ({
  id,
  series: 'SP-31/settlement',
  fromAt: daysBefore(50),
  untilAt: null,
  verdict: 'doubtful',
  reason: 'Found on site',
  alternatives: '',
  author: 'R. Engineer',
  at: daysBefore(48),
  ...given,
})
/** The bowl at SP-31 is real (anomaly A2): who laid it on the mark is contradicted by the kerb around it. */
const onTheMark = verdict('V-1', { cause: 'sensor' })
const onTheGround = verdict('V-2', { series: 'SP-29/settlement', verdict: 'accepted', cause: 'ground' })

let sample: ReviewSample
beforeAll(async () => {
  sample = await openReviewSample()
}, 600_000)
afterAll(() => sample?.close())

/** The same, counting how often batches were asked for to measure the loggers. */
function counted(verdicts: readonly Verdict[]) {
  const asked = { batches: 0 }
  const dependencies = withVerdicts(sample, verdicts, presentEpochMs)
  const store: Store = Object.assign(Object.create(dependencies.store), {
    listBatches: (site: string) => {
      asked.batches++
      return sample.store.listBatches(site)
    },
  })
  return { dependencies: { ...dependencies, store }, asked }
}

test('finds of published slices what an open page finds, line by line, and whose verdict nothing contradicts is left out', async () => {
  const { dependencies } = counted([onTheMark, onTheGround])
  const looked = await lookAgain(dependencies, code, Date.now(), null)
  expect(looked).toMatchObject({ asOfEpochMs: presentEpochMs, held: 2 })
  const page = contradictionsNow(onTheMark, [], await sample.caseAt('SP-31/settlement', day, 80))
  expect(page.length).toBeGreaterThan(0)
  expect(looked?.verdicts).toEqual([{ verdict: 'V-1', series: 'SP-31/settlement', contradictions: page }])
})

test('a verdict that could not be held against anything is told with its reason, not passed over', async () => {
  const gone = verdict('V-3', { series: 'ZZ-9/settlement' })
  const ended = verdict('V-4', { series: 'SP-29/settlement', verdict: 'accepted', at: presentEpochMs - 1000 })
  const { dependencies } = counted([onTheMark, gone, ended])
  const looked = await lookAgain(dependencies, code, Date.now(), null)
  expect(looked).toMatchObject({ held: 3, verdicts: [{ verdict: 'V-1' }] })
  expect(looked?.unjudged).toEqual([
    {
      verdict: 'V-3',
      series: 'ZZ-9/settlement',
      why: 'no-series',
      reason: 'ZZ-9/settlement has no values any more.',
    },
    {
      verdict: 'V-4',
      series: 'SP-29/settlement',
      why: 'nothing-newer',
      reason: 'No value of SP-29/settlement has come since it was found.',
    },
  ])
})

test('looked at again without anything new, nothing is read and the same comes of it, unless a verdict failed', async () => {
  const { dependencies, asked } = counted([onTheMark])
  const first = await lookAgain(dependencies, code, Date.now(), null)
  expect(asked.batches).toBe(1)
  const second = await lookAgain(dependencies, code, Date.now() + 1000, first)
  expect(asked.batches).toBe(1)
  expect(second?.verdicts).toBe(first?.verdicts)
  if (!first) throw new Error('nothing was looked at')
  const failed = { verdict: 'V-1', series: 'SP-31/settlement', why: 'failed' as const, reason: 'It failed.' }
  const retried = await lookAgain(dependencies, code, Date.now(), { ...first, unjudged: [failed] })
  expect(asked.batches).toBe(2)
  expect(retried).toMatchObject({ unjudged: [], verdicts: first.verdicts })
  const anew = await lookAgain(dependencies, code, Date.now(), null)
  expect(anew?.verdicts).toEqual(first?.verdicts)
})

test('where no verdict holds nothing is read, and of an unknown site nothing is told', async () => {
  const { dependencies, asked } = counted([])
  expect(await lookAgain(dependencies, code, Date.now(), null)).toMatchObject({
    held: 0,
    verdicts: [],
    unjudged: [],
  })
  expect(asked.batches).toBe(0)
  expect(await lookAgain(dependencies, 'elsewhere', Date.now(), null)).toBeNull()
})

test('where the thread that judges fails, so does the look, with what it says', async () => {
  const { dependencies } = counted([onTheMark])
  const publisher = {
    ...dependencies.publisher,
    siteDocument: async () => ({ json: '{"facts":', etag: 'cut off' }),
  }
  await expect(lookAgain({ ...dependencies, publisher }, code, Date.now(), null)).rejects.toThrow(/JSON/)
})
