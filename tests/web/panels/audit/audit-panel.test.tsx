import { createRoot } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import type { AuditPage } from '#contract/audit.ts'
import type { AuditEntry } from '#domain/audit/audit-entry.ts'
import { AuditPanel } from '../../../../web/panels/audit/AuditPanel.tsx'
import { RecordHistory } from '../../../../web/panels/audit/RecordHistory.tsx'
import { narrowAudit, wholeAudit } from '../../../../web/state/audit-filter.ts'
import { knowOwnAccount, me } from '../../../../web/state/own-account.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { smallSite } from '../../state/small-site.ts'

const entry = (number: number, given: Partial<AuditEntry> = {}): AuditEntry => ({
  number,
  site: 'small',
  atEpochMs: Date.UTC(2027, 9, 21),
  account: 'acc-1',
  name: 'A. Reed',
  action: 'changed',
  subjectKind: 'triggerLevels',
  subjectKey: `TL-${number}`,
  version: 2,
  before: '{"value":3}',
  after: '{"value":4}',
  why: 'after the second dig',
  ...given,
})

let stop = () => {}
let asked: string[]
let known: Me
let pages: (path: string) => AuditPage
beforeEach(async () => {
  asked = []
  known = { accounts: 'needed', person: person('engineer', 'small'), link: null, hindrance: null }
  pages = () => ({
    entries: [entry(3), entry(2)],
    more: false,
    choices: { kinds: ['triggerLevels'], names: ['A. Reed'] },
  })
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path)
    const content =
      path === '/api/me' ? known : path.startsWith('/api/audit/verification') ? verification : pages(path)
    return new Response(JSON.stringify(content), { headers: { 'content-type': 'application/json' } })
  })
  narrowAudit(wholeAudit)
  showSite(smallSite())
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

const person = (role: 'viewer' | 'engineer' | 'administrator', site: string) => ({
  name: 'A. Reed',
  signInName: 'reed',
  memberships: [{ site, role }],
})
const verification = {
  entries: 9,
  head: { number: 9, hash: 'c'.repeat(64) },
  firstBreak: { kind: 'missing', number: 4, sentence: 'Entry 4 is missing: it was taken out.' },
  recordFaults: [],
  recordFaultCount: 0,
  recordsCompared: 5,
  recordsBefore: 0,
  notices: [],
}

async function show(what: () => unknown): Promise<void> {
  // Who asks is known before anything is shown, as on a page that has been open for a moment.
  const forget = createRoot((dispose) => {
    knowOwnAccount()
    return dispose
  })
  await vi.waitFor(() => expect(me()).toEqual(known))
  const hide = render(() => what() as never, document.body)
  stop = () => {
    hide()
    forget()
  }
}
const text = () => document.body.textContent ?? ''
const button = (name: string) =>
  [...document.querySelectorAll('button')].find((one) => one.textContent === name) as HTMLButtonElement

test('entries are listed with who, why and the values before and after, and older ones on demand', async () => {
  pages = (path) =>
    path.includes('before=2')
      ? { entries: [entry(1)], more: false, choices: null }
      : {
          entries: [entry(3), entry(2)],
          more: true,
          choices: { kinds: ['triggerLevels'], names: ['A. Reed'] },
        }
  await show(() => <AuditPanel />)
  await vi.waitFor(() => expect(document.querySelectorAll('.audit-entry')).toHaveLength(2))
  expect(text()).toMatch(
    /Trigger level TL-3, version 2: changed.*A\. Reed.*entry 3.*after the second dig.*value3 → 4/,
  )
  button('Older entries').click()
  await vi.waitFor(() => expect(document.querySelectorAll('.audit-entry')).toHaveLength(3))
  expect(button('Older entries')).toBeUndefined()
})

test('they are narrowed by kind and person, and only administrators of everything check the record', async () => {
  await show(() => <AuditPanel />)
  await vi.waitFor(() => expect(document.querySelectorAll('.audit-entry')).toHaveLength(2))
  const [what, who] = [...document.querySelectorAll('select')]
  for (const [select, value] of [
    [what, 'triggerLevels'],
    [who, 'A. Reed'],
  ] as const) {
    if (select) select.value = value
    select?.dispatchEvent(new Event('change', { bubbles: true }))
  }
  await vi.waitFor(() => expect(asked.at(-1)).toContain('subjectKind=triggerLevels&name=A.+Reed'))
  expect(button('Check the audit record')).toBeUndefined()
})

test('what came of the check is said, with where it breaks', async () => {
  known = { accounts: 'needed', person: person('administrator', '*'), link: null, hindrance: null }
  await show(() => <AuditPanel />)
  await vi.waitFor(() => expect(button('Check the audit record')).toBeDefined())
  button('Check the audit record').click()
  await vi.waitFor(() => expect(text()).toContain('does not fit from entry 4 on. Entry 4 is missing'))
  expect(document.querySelector('.audit-found')?.classList.contains('trouble')).toBe(true)
})

test('who may not read it is told so and nothing is asked', async () => {
  known = { accounts: 'needed', person: person('viewer', 'small'), link: null, hindrance: null }
  await show(() => (
    <>
      <AuditPanel />
      <RecordHistory of="these levels" records={[{ kind: 'triggerLevels', keys: ['TL-1'] }]} />
    </>
  ))
  expect(text()).toContain('for engineers, approvers and administrators')
  expect(document.querySelector('details')).toBeNull()
  expect(asked.filter((path) => path.includes('/audit'))).toEqual([])
})

test('the history beside a record is asked for when it is opened, a question a kind', async () => {
  await show(() => (
    <RecordHistory
      of="these verdicts"
      records={[
        { kind: 'verdicts', keys: ['V-1', 'V-2'] },
        { kind: 'verdictWithdrawals', keys: ['V-1', 'V-2'] },
      ]}
    />
  ))
  expect(asked.filter((path) => path.includes('/audit'))).toEqual([])
  pages = (path) => ({
    entries: [
      path.includes('Withdrawals') ? entry(8) : entry(7, { account: null, action: 'made', version: 1 }),
    ],
    more: false,
    choices: null,
  })
  const details = document.querySelector('details') as HTMLDetailsElement
  details.open = true
  details.dispatchEvent(new Event('toggle'))
  await vi.waitFor(() => expect(document.querySelectorAll('.audit-entry')).toHaveLength(2))
  expect(asked.filter((path) => path.includes('/audit'))).toEqual([
    '/api/sites/small/audit?subjectKind=verdicts&limit=100&subjectKey=V-1&subjectKey=V-2',
    '/api/sites/small/audit?subjectKind=verdictWithdrawals&limit=100&subjectKey=V-1&subjectKey=V-2',
  ])
  expect(text()).toMatch(/entry 8.*entry 7/)
  expect(text()).toContain('A. Reed (a name as written, no account)')
})
