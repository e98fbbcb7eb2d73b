import { createRoot } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import type { CorrectionProposals } from '#contract/correction-proposals.ts'
import type { Role } from '#domain/access/permissions.ts'
import { CorrectionList } from '../../../../web/panels/corrections/CorrectionList.tsx'
import { createCorrections } from '../../../../web/panels/corrections/create-corrections.ts'
import { OfferCorrection } from '../../../../web/panels/corrections/OfferCorrection.tsx'
import { knowOwnAccount, me } from '../../../../web/state/own-account.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { presentEpochMs, smallSite } from '../../state/small-site.ts'

const draft = {
  kind: 'wiring',
  series: 'SP-1/settlement',
  fromEpochMs: presentEpochMs,
  untilEpochMs: null,
  was: { logger: 'LG-1', channel: '1' },
  reads: { logger: 'LG-1', channel: '2' },
} as const

let known: Me
let list: CorrectionProposals
const stops: (() => void)[] = []
beforeEach(() => {
  showSite(smallSite())
  vi.stubGlobal(
    'fetch',
    async (path: string) =>
      new Response(JSON.stringify(path === '/api/me' ? known : list), {
        headers: { 'content-type': 'application/json' },
      }),
  )
})
afterEach(() => {
  for (const stop of stops.splice(0)) stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

/** A page of a visitor, or of somebody with a role, with a proposal of the account `one` and a sandbox that could be offered. */
async function showAs(role: Role | null, account: string | null): Promise<void> {
  known = {
    accounts: role === null ? 'to-change' : 'needed',
    person: role && {
      name: 'Ben Holm',
      signInName: 'b',
      memberships: [{ site: '*', role }],
    },
    link: null,
    hindrance: null,
  }
  list = {
    proposals: [
      {
        number: 1,
        author: 'Ada Marsh',
        account: 'one',
        reason: 'leads exchanged',
        atEpochMs: presentEpochMs,
        changes: [{ ...draft, name: 'wiring', replaces: '', before: 'It reads 1.', after: 'It reads 2.' }],
        evidence: { sandbox: '?', effects: [], alsoChanges: [] },
        decision: null,
        overlaps: [],
        stale: [],
      },
    ],
    namesAreProven: role !== null,
    mayDecide: role === null || role === 'approver',
    signedInAs: role && 'Ben Holm',
    account,
  }
  stops.push(
    createRoot((dispose) => {
      knowOwnAccount()
      return dispose
    }),
  )
  await vi.waitFor(() => expect(me()).toEqual(known))
  stops.push(
    render(() => {
      const corrections = createCorrections()
      return (
        <>
          <OfferCorrection
            offered={{ changes: [draft], hindrances: [] }}
            faults={0}
            corrections={corrections}
            address={() => '?'}
          />
          <CorrectionList corrections={corrections} about={null} approved={() => {}} />
        </>
      )
    }, document.body),
  )
  await vi.waitFor(() => expect(document.body.textContent).toContain('leads exchanged'))
}
const buttons = () => [...document.querySelectorAll('button')].map((one) => one.textContent?.trim())

test('a visitor reads what waits and is offered nothing', async () => {
  await showAs(null, null)
  expect(buttons()).toEqual([])
  expect(document.body.textContent).toContain('you need an account')
})

test.each([
  ['an engineer', 'engineer', 'two', ['Offer for approval']],
  ['its proposer', 'engineer', 'one', ['Offer for approval', 'Withdraw']],
  ['an approver', 'approver', 'two', ['Offer for approval', 'Approve', 'Turn down']],
  ['an approver whose own it is', 'approver', 'one', ['Offer for approval', 'Withdraw']],
] as const)('%s is offered what they may', async (_, role, account, offered) => {
  await showAs(role, account)
  expect(buttons()).toEqual(offered)
})
