import { expect, test } from 'vitest'
import { doubtsWithin } from '../../../web/panels/doubts-within.ts'
import { smallSite } from '../state/small-site.ts'

const day = (number: number) => Date.UTC(2027, 8, number)
const base = smallSite()
const [series] = base.series
if (!series) throw new Error('a small site has a series')
const instrument = base.points.find(({ id }) => id === series.point)?.instrument ?? series.point
const verdict = (change: object) => ({
  id: 'V-1',
  series: series.id,
  fromAt: day(5),
  untilAt: null,
  verdict: 'doubtful',
  author: 'A. Judge',
  at: day(6),
  ...change,
})
const told = (one: object, from = day(1), until = day(10), of = instrument, withdrawals: object[] = []) =>
  doubtsWithin(
    {
      ...base,
      verdicts: [verdict(one)] as unknown as typeof base.verdicts,
      verdictWithdrawals: withdrawals as unknown as typeof base.verdictWithdrawals,
    },
    [of],
    from,
    until,
  )

test('whoever approves is told what others doubt in the stretch, and of nothing else', () => {
  expect(told({})).toEqual([
    expect.stringMatching(/ is doubtful by A\. Judge from 5 Sep .* on, not ended\.$/),
  ])
  expect(told({ verdict: 'rejected', untilAt: day(7) })[0]).toMatch(/ is rejected by A\. Judge .* to 7 Sep /)
  expect(told({ verdict: 'accepted' })).toEqual([])
  expect(told({ untilAt: day(7) }, day(7))).toEqual([])
  expect(told({}, day(1), day(5))).toEqual([])
  expect(told({}, day(1), day(10), 'another')).toEqual([])
  expect(told({}, day(1), day(10), instrument, [{ verdict: 'V-1' }])).toEqual([])
})
