import { expect, it } from 'vitest'
import type { FrozenSince } from '#contract/frozen-sets.ts'
import { sinceSentence } from '../../../../web/derived/meeting/since-sentence.ts'

const at = Date.UTC(2027, 9, 3, 10, 2)
const reading = (series: string, count: number) => ({
  series,
  count,
  fromEpochMs: 0,
  untilEpochMs: 1,
  lastReceivedEpochMs: at,
})
const record = (
  place: string | null,
  sentence: string,
  facts: Partial<FrozenSince['records'][number]> = {},
): FrozenSince['records'][number] => ({
  kind: 'calibration',
  name: 'CC-118/2',
  what: 'corrected',
  series: null,
  place,
  fromEpochMs: null,
  untilEpochMs: null,
  sentence,
  atEpochMs: at,
  by: '',
  why: '',
  ...facts,
})

it('says nothing where nothing of what is shown changed', () => {
  expect(sinceSentence({ readings: [], records: [] }, null, 'UTC')).toBeNull()
  const elsewhere = { readings: [reading('SP-1/settlement', 3)], records: [record('SP-1', 'x.')] }
  expect(sinceSentence(elsewhere, new Set(['PZ-05C']), 'UTC')).toBeNull()
})

it('counts readings that came in since, and names the first record that was corrected', () => {
  const since = {
    readings: [reading('PZ-05C/pore-pressure', 17), reading('SP-1/settlement', 1)],
    records: [
      record('PZ-05C', 'The calibration of PZ-05C was corrected.'),
      record('PZ-05C', 'The calibration of PZ-05C was corrected.'),
      record(null, 'What holds for the whole site was corrected.', { kind: 'other' }),
    ],
  }
  expect(sinceSentence(since, null, 'UTC')).toBe(
    'Not in these data, since they were frozen before: 18 readings from before the cut-off, the last received 3 Oct 10:02; the calibration of PZ-05C was corrected, and 1 more like it; what holds for the whole site was corrected.',
  )
  expect(sinceSentence(since, new Set(['PZ-05C']), 'UTC')).toContain('17 readings')
  expect(sinceSentence({ readings: [], records: since.records.slice(0, 1) }, null, 'UTC')).toBe(
    'Not in these data, since they were frozen before: the calibration of PZ-05C was corrected.',
  )
})

it('names an approval that was withdrawn, first and however much was corrected beside it', () => {
  const calibrations = Array.from({ length: 9 }, () =>
    record('PZ-05C', 'The calibration of PZ-05C was corrected.'),
  )
  const records = [
    ...calibrations,
    record('TL-11', 'A verdict of TL-11 was withdrawn.', { kind: 'verdict', what: 'withdrawn' }),
    record('PZ-05', 'An approval of PZ-05 was added.', { kind: 'approval', what: 'added' }),
    record('PZ-05', 'An approval of PZ-05 was withdrawn.', { kind: 'approval', what: 'withdrawn' }),
    record('PZ-06', 'An approval of PZ-06 was withdrawn.', { kind: 'approval', what: 'withdrawn' }),
  ]
  expect(sinceSentence({ readings: [], records }, null, 'UTC')).toBe(
    'Not in these data, since they were frozen before: an approval of PZ-05 was withdrawn, and 1 more like it; the calibration of PZ-05C was corrected, and 8 more like it; a verdict of TL-11 was withdrawn; an approval of PZ-05 was added.',
  )
})
