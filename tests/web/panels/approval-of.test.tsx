import { createRoot } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import type { Role } from '#domain/access/permissions.ts'
import { ApprovalOf } from '../../../web/panels/ApprovalOf.tsx'
import { knowOwnAccount, me } from '../../../web/state/own-account.ts'
import { showSite } from '../../../web/state/site-document.ts'
import { presentEpochMs, smallSite } from '../state/small-site.ts'

const stops: (() => void)[] = []
let known: Me
let sent: unknown[]
beforeEach(() => {
  sent = []
  vi.stubGlobal('fetch', async (path: string, request?: RequestInit) => {
    if (request?.method === 'POST') sent.push({ path, content: JSON.parse(String(request.body)) })
    return Response.json(path === '/api/me' ? known : {})
  })
  const approval = {
    id: 'AP-7',
    instrument: 'SP-1',
    fromEpochMs: presentEpochMs - 2e9,
    untilEpochMs: presentEpochMs - 1e9,
    approvedAtEpochMs: presentEpochMs - 1e8,
    approver: 'A. Reed',
    statement: 'Plots of the week',
    changedSince: false,
    compared: true,
  }
  showSite({ ...smallSite(), approvals: [approval] })
})
afterEach(() => {
  for (const stop of stops.splice(0)) stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

async function showAs(person: Role | null): Promise<void> {
  known = {
    accounts: person === null ? 'to-change' : 'needed',
    person: person && { name: 'B. Other', signInName: 'b', memberships: [{ site: '*', role: person }] },
    link: null,
    hindrance: null,
  }
  stops.push(
    createRoot((dispose) => {
      knowOwnAccount()
      return dispose
    }),
  )
  await vi.waitFor(() => expect(me()).toEqual(known))
  stops.push(render(() => <ApprovalOf instrument="SP-1" />, document.body))
}
const button = (name: string) =>
  [...document.querySelectorAll('button')].find(
    (one) => (one.getAttribute('aria-label') ?? one.textContent)?.trim() === name,
  )

test.each([
  ['a visitor', null, 'an account'],
  ['an engineer', 'engineer', 'Your role at this site does not let you approve readings'],
] as const)('%s reads what is approved, is offered nothing, and is told why', async (_, role, why) => {
  await showAs(role)
  expect(document.body.textContent).toContain('Plots of the week')
  expect(document.body.textContent).toContain(why)
  expect(document.querySelectorAll('button')).toHaveLength(0)
})

test('an approver takes an approval back with a reason, in the name of the account', async () => {
  await showAs('approver')
  expect(button('Approve readings')).toBeDefined()
  button('Take AP-7 back')?.click()
  const reason = document.querySelector('textarea') as HTMLTextAreaElement
  reason.value = 'the mark had moved'
  reason.dispatchEvent(new InputEvent('input', { bubbles: true }))
  document
    .querySelector('form')
    ?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))
  await vi.waitFor(() =>
    expect(sent).toEqual([
      {
        path: '/api/sites/small/approvals/withdrawals',
        content: { approval: 'AP-7', reason: 'the mark had moved', author: 'B. Other' },
      },
    ]),
  )
})
