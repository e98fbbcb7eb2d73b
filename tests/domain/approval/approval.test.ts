import { expect, test } from 'vitest'
import {
  approvalOf,
  approvedStretches,
  standingApprovals,
} from '../../../api/domain/approval/approved-stretches.ts'
import { nextApprovals, nextApprovalWithdrawal } from '../../../api/domain/approval/draft-approval.ts'
import type { Approval } from '../../../api/domain/site/tables.ts'

const day = (number: number) => Date.UTC(2027, 8, number)
const approval = (change: Partial<Approval> = {}): Approval => ({
  id: 'AP-1',
  instrument: 'PZ-01',
  fromAt: day(1),
  untilAt: day(10),
  at: day(12),
  approver: 'A. Approver',
  statement: 'Plots of the week',
  recipe: 'as it was',
  ...change,
})
const asItWas = () => 'as it was'

// What is provisional until approved, and again after a later change: USGS SW06.05 and WMA2010.02 name the states
// working, in review, approved; that late arrivals and corrections make values provisional is common practice.
test('a reading is approved inside the stretch, if it had arrived, and until its recipe changes', () => {
  const standing = standingApprovals([approval()], [], asItWas)
  const of = (atEpochMs: number, receivedAtEpochMs: number | null) =>
    approvalOf(standing, 'PZ-01', { atEpochMs, receivedAtEpochMs })?.id ?? null
  expect(of(day(1), day(1))).toBe('AP-1')
  expect(of(day(10), day(10))).toBeNull()
  expect(of(day(1) - 1, day(1))).toBeNull()
  expect(of(day(5), day(12))).toBe('AP-1')
  expect(of(day(5), day(12) + 1)).toBeNull()
  expect(approvalOf(standing, 'PZ-02', { atEpochMs: day(5), receivedAtEpochMs: day(5) })).toBeNull()

  const changed = standingApprovals([approval()], [], () => 'another calibration')
  expect(changed.map(({ changedSince }) => changedSince)).toEqual([true])
  expect(approvalOf(changed, 'PZ-01', { atEpochMs: day(5), receivedAtEpochMs: day(5) })).toBeNull()
  expect(approvedStretches(changed, 'PZ-01')).toEqual([])
  expect(standingApprovals([approval()], [{ approval: 'AP-1' }], asItWas)).toEqual([])
  expect(standingApprovals([approval({ recipe: null })], [], () => 'any')).toMatchObject([
    { changedSince: false, compared: false },
  ])
})

test('stretches that touch or overlap are one; a gap stays a gap', () => {
  const standing = standingApprovals(
    [
      approval({ id: 'AP-3', fromAt: day(20), untilAt: day(22), at: day(23) }),
      approval(),
      approval({ id: 'AP-2', fromAt: day(8), untilAt: day(12) }),
      approval({ id: 'AP-4', instrument: 'PZ-02' }),
    ],
    [],
    asItWas,
  )
  expect(approvedStretches(standing, 'PZ-01')).toEqual([
    { fromEpochMs: day(1), untilEpochMs: day(12), approvedAtEpochMs: day(12) },
    { fromEpochMs: day(20), untilEpochMs: day(22), approvedAtEpochMs: day(23) },
  ])
})

const model = {
  approvals: [approval({ id: 'AP-7' })],
  approvalWithdrawals: [],
  instruments: [{ id: 'PZ-01' }, { id: 'PZ-02' }] as never,
}
const draft = {
  instruments: ['PZ-01', 'PZ-02', 'PZ-01'],
  fromEpochMs: day(1),
  untilEpochMs: day(10),
  statement: ' Plots of the week ',
  author: 'A. Approver',
}

test('one record an instrument, with what its values are made by now', () => {
  const made = nextApprovals(model, draft, day(12), (instrument) => `of ${instrument}`)
  expect(made.ok && made.value.map(({ id, instrument, recipe }) => [id, instrument, recipe])).toEqual([
    ['AP-8', 'PZ-01', 'of PZ-01'],
    ['AP-9', 'PZ-02', 'of PZ-02'],
  ])
})

test.each([
  [{ untilEpochMs: day(13) }, 'not-past'],
  [{ untilEpochMs: day(1) }, 'ends-before-begin'],
  [{ instruments: [] }, 'instruments-missing'],
  [{ instruments: ['PZ-99'] }, 'instrument-unknown'],
  [{ statement: '  ' }, 'statement-missing'],
  [{ author: '' }, 'author-missing'],
])('%o is refused: %s', (change, code) => {
  const made = nextApprovals(model, { ...draft, ...change }, day(12), asItWas)
  expect(made.ok ? [] : made.issues.map((issue) => issue.code)).toEqual([code])
})

test('an approval is taken back once, for a reason', () => {
  const back = { approval: 'AP-7', reason: 'Wrong zero', author: 'B. Other' }
  const made = nextApprovalWithdrawal(model, back, day(13))
  expect(made.ok && made.value).toEqual({ ...back, at: day(13) })
  const codes = (change: object, taken: typeof model = model) => {
    const refused = nextApprovalWithdrawal(taken, { ...back, ...change }, day(13))
    return refused.ok ? [] : refused.issues.map(({ code }) => code)
  }
  expect(codes({ reason: ' ' })).toEqual(['reason-missing'])
  expect(codes({ approval: 'AP-9' })).toEqual(['approval-unknown'])
  const taken = { ...model, approvalWithdrawals: [{ ...back, at: day(13) }] as never }
  expect(codes({}, taken)).toEqual(['withdrawn-already'])
})
