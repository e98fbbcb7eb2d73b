import { expect, test } from 'vitest'
import type { LookedAgain } from '../../../api/review/look-again.ts'
import { createVerdictWatch } from '../../../api/review/verdict-watch.ts'

const looked = (revision: number): LookedAgain => ({
  key: String(revision),
  revision,
  asOfEpochMs: 3_600_000,
  held: 1,
  verdicts: [
    {
      verdict: 'V-1',
      series: 'P-1/pore-pressure',
      contradictions: [
        {
          kind: 'borne-out',
          sentence: 'It was doubtful, and is borne out.',
          figure: { value: 8, low: null, high: null, unit: 'dB of odds' },
        },
      ],
    },
  ],
  unjudged: [],
})

test('what is published during a look shares the next one, and the document says when it is behind', async () => {
  let [revision, looks] = [1, 0]
  const watch = createVerdictWatch({
    look: async () => {
      looks++
      const now = revision
      await new Promise((resolve) => setTimeout(resolve, 20))
      return looked(now)
    },
    revisionOf: async (site) => (site === 'small' ? revision : null),
    report: (line) => expect(line).toBe('nothing is to be told'),
    rest: { times: 0, leastMs: 0 },
  })
  expect(await watch.document('elsewhere')).toBeNull()
  expect(await watch.document('small')).toMatchObject({ revision: null, behind: true, held: 0, verdicts: [] })
  watch.published('small')
  await new Promise((resolve) => setTimeout(resolve, 5))
  revision = 4
  for (let again = 0; again < 10; again++) watch.published('small')
  await watch.settled()
  expect(looks).toBe(2)
  expect(await watch.document('small')).toMatchObject({
    revision: 4,
    behind: false,
    failure: null,
    held: 1,
    verdicts: [{ verdict: 'V-1' }],
  })
  revision = 5
  expect(await watch.document('small')).toMatchObject({ behind: true, verdicts: [{ verdict: 'V-1' }] })
  await watch.close()
})

test('a look that fails is told and keeps what was found, and the next goes on', async () => {
  const lines: string[] = []
  let fails = false
  const watch = createVerdictWatch({
    look: async () => {
      if (fails) throw new Error('the slice was replaced meanwhile')
      return looked(1)
    },
    revisionOf: async () => 1,
    report: (line) => lines.push(line),
    rest: { times: 0, leastMs: 0 },
  })
  watch.published('small')
  await watch.settled()
  fails = true
  watch.published('small')
  await watch.settled()
  const document = await watch.document('small')
  expect(document?.failure).toContain('the slice was replaced meanwhile')
  expect(document?.verdicts).toHaveLength(1)
  expect(lines).toHaveLength(1)
  fails = false
  watch.published('small')
  await watch.settled()
  expect((await watch.document('small'))?.failure).toBeNull()
})

test('a verdict that could not be judged for a failure is reported with its cause; what has another reason is not', async () => {
  const lines: string[] = []
  const one = { verdict: 'V-2', series: 'P-1/pore-pressure' }
  const unjudged: LookedAgain['unjudged'] = [
    { ...one, why: 'failed', reason: 'It failed: the slice cannot be read' },
    { ...one, verdict: 'V-3', why: 'nothing-newer', reason: 'Nothing came.' },
  ]
  const watch = createVerdictWatch({
    look: async () => ({ ...looked(1), unjudged }),
    revisionOf: async () => 1,
    report: (line) => lines.push(line),
    rest: { times: 0, leastMs: 0 },
  })
  watch.published('small')
  await watch.settled()
  expect(lines).toEqual(['small: verdict V-2: It failed: the slice cannot be read'])
  expect(await watch.document('small')).toMatchObject({
    failure: null,
    verdicts: [{ verdict: 'V-1' }],
    unjudged,
  })
})

test('looks rest after one another, and none begins once it is closed', async () => {
  let looks = 0
  const watch = createVerdictWatch({
    look: async () => {
      looks++
      return looked(1)
    },
    revisionOf: async () => 1,
    report: () => {},
    rest: { times: 20, leastMs: 60_000 },
  })
  watch.published('small')
  await new Promise((resolve) => setTimeout(resolve, 30))
  for (let again = 0; again < 5; again++) watch.published('small')
  await new Promise((resolve) => setTimeout(resolve, 30))
  expect(looks).toBe(1)
  await watch.close()
  watch.published('small')
  await new Promise((resolve) => setTimeout(resolve, 30))
  expect(looks).toBe(1)
})
