import { expect, test } from 'vitest'
import type { Series } from '#contract/site-document.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { emptyIndex, type SliceIndex } from '../../../api/slices/slice-index.ts'
import { buildStateDocument } from '../../../api/slices/state-document.ts'
import { smallSite } from '../../contract/small-site.ts'
import { levelFor } from '../../support/level-for.ts'

const hour = 3_600_000
const now = Date.UTC(2027, 1, 2)
const series = [{ series: 1, id: 'P-1/settlement', lateAfterMinutes: 120 }] as unknown as Series[]
const latest = {
  series: 1,
  atEpochMs: now - hour,
  receivedAtEpochMs: now - hour,
  value: 12,
  quality: 0,
  flags: 0,
}
const index = {
  ...emptyIndex,
  months: { '2027-02': { recipe: '', slices: [], latest: [latest] } },
} as SliceIndex

const stateWith = (...triggerLevels: TriggerLevel[]) => {
  const model = { ...smallSite(), triggerLevels }
  const [state] = buildStateDocument(model, series, index, now).states
  return [state?.level, state?.shareOfFirstLevel]
}

test('a value is coloured by levels on the value, in their stage; other kinds alone leave it without any', () => {
  expect(stateWith(levelFor({ value: 10 }))).toEqual([1, 1.2])
  // As without any level: never calm over what is not watched.
  expect(stateWith()).toEqual([null, null])
  expect(stateWith(levelFor({ watches: 'rate', windowMinutes: 60, value: 10 }))).toEqual([null, null])
  expect(stateWith(levelFor({ watches: 'silence', value: 10 }))).toEqual([null, null])
  // The stage "wall" of the small site ends at noon, "dig-1" begins then.
  expect(stateWith(levelFor({ value: 10, stage: 'wall' }))).toEqual([1, 1.2])
  expect(stateWith(levelFor({ value: 10, stage: 'dig-1' }))).toEqual([null, null])
})
