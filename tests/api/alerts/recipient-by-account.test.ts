import { afterAll, beforeAll, expect, it } from 'vitest'
import type { DutiesDocument } from '#contract/duties-document.ts'
import { recipientOf } from '../../../api/alerts/compose-message.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const by = { author: 'tester', reason: 'test', atEpochMs: 0 }
const contact = { id: 'ada', name: 'Ada Marsh', email: null, account: 'ada', webhooks: null, note: null }

let open: OpenAccounts
let id: string
beforeAll(async () => {
  open = await openAccounts()
  await open.join('chief', '*', 'administrator')
  await open.join('ada', 'small-quay', 'viewer')
  id = (await open.store.findSignIn('ada'))?.account.id ?? ''
  await open.store.changeSite('small-quay', (model) => ({ ...model, contacts: [contact] }), by)
})
afterAll(() => open.close())

const told = async () =>
  (
    await recipientOf(
      { site: 'small-quay', contact: 'ada', way: { kind: 'account', to: 'ada' } },
      [contact],
      open.store,
    )
  ).account
async function toNowhere(): Promise<string> {
  const headers = { cookie: await open.cookieOf('chief') }
  const answer = await open.app.request('/api/sites/small-quay/duties', { headers })
  return ((await answer.json()) as DutiesDocument).nowhere.join(' ')
}

it('tells nobody by an account whose role at the site was taken away, and the roster says so', async () => {
  expect(await told()).toBe(id)
  expect(await toNowhere()).toBe('')
  await open.store.setMembership(id, 'small-quay', null, by)
  await open.store.setMembership(id, 'other-quay', 'approver', by)
  expect(await told()).toBeNull()
  expect(await toNowhere()).toContain('nobody with a role at this site signs in as "ada"')
  await open.store.setMembership(id, '*', 'viewer', by)
  expect(await told()).toBe(id)
})
