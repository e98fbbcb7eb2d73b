import { beforeEach, expect, test } from 'vitest'
import { quality } from '#domain/reduction/quality.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { foundOfValues } from '../../../web/derived/verdict-on-value.ts'
import { describePoint, describeSymbol } from '../../../web/panels/describe-point.ts'
import { selectedSymbol, selectSymbol } from '../../../web/state/plan-symbols.ts'
import { jumpToPresent } from '../../../web/state/site-clock.ts'
import { showSite, showStates, siteLookup } from '../../../web/state/site-document.ts'
import { registerRows } from '../../../web/views/register/register-rows.ts'
import { presentEpochMs, smallSite, smallStates, state, stateMap } from '../state/small-site.ts'

const show = (
  states: ReturnType<typeof state>[],
  retired: readonly string[] = [],
  verdicts: readonly Verdict[] = [],
) => {
  const site = smallSite()
  showSite({
    ...site,
    verdicts: [...verdicts],
    points: site.points.map((one) =>
      retired.includes(one.id) ? { ...one, retiredAtEpochMs: presentEpochMs - 86_400_000 } : one,
    ),
  })
  showStates(smallStates(states))
}
const ofPoint = (id: string) => describePoint(siteLookup().pointById.get(id), presentEpochMs)
const ofSymbol = (id: string) => {
  selectSymbol(id)
  return describeSymbol(selectedSymbol())
}

beforeEach(() => jumpToPresent())

test('a point out of use is told to be so, with what it last said, never that it is within levels', () => {
  show([state(3, { level: 1, value: 40 })], ['SP-1'])
  expect(ofPoint('SP-1')).toMatch(/^Out of use since .*: nothing is measured there · last 40.* · .* by it$/)
  expect(ofSymbol('SP-1')).toMatch(/^Out of use since .*: nothing is measured there$/)
  expect(ofPoint('PZ-1A')).toContain('Within levels')
})

test('a point whose series ended is told to be out of use, as its symbol and its row are', () => {
  const site = smallSite()
  const endedAtEpochMs = presentEpochMs - 86_400_000
  showSite({
    ...site,
    series: site.series.map((one) => (one.series === 3 ? { ...one, endedAtEpochMs } : one)),
  })
  showStates(smallStates([state(3, { late: true, level: null, atEpochMs: endedAtEpochMs })]))
  expect(ofPoint('SP-1')).toMatch(/^Out of use since .*: nothing is measured there · last 4/)
  expect(ofSymbol('SP-1')).toMatch(/^Out of use since .*: nothing is measured there$/)
})

test('of a string it is told how many channels are out of use and how many channels have no level', () => {
  show([state(1, { level: null })], [])
  expect(ofSymbol('PZ-1')).toContain('1 of its 2 channels without a level')
  show([], ['PZ-1B'])
  expect(ofSymbol('PZ-1')).toContain('1 of its channels out of use')
})

test('an old value that stood at a level is told with its silence, all of it where all is silent', () => {
  show([state(3, { late: true, level: 1 })])
  expect(ofSymbol('SP-1')).toMatch(/ · no current data · /)
  expect(ofPoint('SP-1')).toContain('no current data')
  show([state(1, { late: true, level: 1 })])
  expect(ofSymbol('PZ-1')).toContain('part of it without current data')
})

test('a point without any level is told to have none', () => {
  show([state(3, { level: null, shareOfFirstLevel: null })])
  expect(ofPoint('SP-1')).toContain('No level on its value')
  expect(ofSymbol('SP-1')).toMatch(/^No level on its value · oldest/)
})

test('a value that a person doubted or rejected is told to be so, on symbol, strip and register', () => {
  const verdict = (id: string, untilAt: number | null) =>
    ({
      id,
      series: 'SP-1/settlement',
      fromAt: 0,
      untilAt,
      verdict: 'rejected',
      at: presentEpochMs,
    }) as Verdict
  show([], [], [verdict('V-3', null)])
  expect(ofPoint('SP-1')).toContain('Within levels')
  expect(ofPoint('SP-1')).toContain('found rejected, V-3')
  expect(ofSymbol('SP-1')).toContain('found rejected, V-3')
  const marks = (verdicts: readonly Verdict[]) =>
    registerRows({ ...smallSite(), verdicts: [...verdicts] }, stateMap(), presentEpochMs).find(
      ({ id }) => id === 'SP-1/settlement',
    )?.marks
  expect(marks([verdict('V-3', null)])).toEqual(['found rejected, V-3'])
  // One that ended before the value was taken says nothing of it.
  expect(marks([verdict('V-3', 1)])).toEqual([])
  const accepted = { ...verdict('V-4', null), verdict: 'accepted' } as Verdict
  expect(foundOfValues({ verdicts: [accepted], verdictWithdrawals: [] })('SP-1/settlement', 5)).toBe('')
})

test('a value outside the range of its sensor, or made without something, is told with that on strip and register', () => {
  const doubtful = state(3, { quality: quality.outOfRange + quality.incomplete })
  show([doubtful])
  const notes = ["outside the sensor's range", 'made from fewer members than it should be']
  for (const note of notes) expect(ofPoint('SP-1')).toContain(note)
  const row = registerRows(smallSite(), stateMap([doubtful]), presentEpochMs).find(
    ({ id }) => id === 'SP-1/settlement',
  )
  expect(row?.marks).toEqual(notes)
})
