import { expect, test } from 'vitest'
import { approvedStretches, standingApprovals } from '../../../api/domain/approval/approved-stretches.ts'
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
// working, in review, approved; that corrections make values provisional is common practice.
test('an approval stands until it is taken back or its recipe changes', () => {
  const [standing] = standingApprovals([approval()], [], asItWas)
  expect(standing).toMatchObject({ id: 'AP-1', changedSince: false, compared: true })
  const changed = standingApprovals([approval()], [], () => 'another calibration')
  expect(changed.map(({ changedSince }) => changedSince)).toEqual([true])
  expect(approvedStretches(changed, 'PZ-01')).toEqual([])
  expect(standingApprovals([approval()], [{ approval: 'AP-1' }], asItWas)).toEqual([])
  expect(standingApprovals([approval({ recipe: null })], [], () => 'any')).toMatchObject([
    { changedSince: false, compared: false },
  ])
})

test('of approvals over one another the latest counts: it saw what had arrived by then', () => {
  const late = approval({ id: 'AP-2', fromAt: day(5), untilAt: day(8), at: day(20) })
  expect(approvedStretches(standingApprovals([late, approval()], [], asItWas), 'PZ-01')).toEqual([
    { fromEpochMs: day(1), untilEpochMs: day(5), approvedAtEpochMs: day(12) },
    { fromEpochMs: day(5), untilEpochMs: day(8), approvedAtEpochMs: day(20) },
    { fromEpochMs: day(8), untilEpochMs: day(10), approvedAtEpochMs: day(12) },
  ])
})

test('stretches that touch or overlap, approved at once, are one; a gap stays a gap', () => {
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
