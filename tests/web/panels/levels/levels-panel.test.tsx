import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { LevelPreview, LevelProposals } from '#contract/level-proposals.ts'
import { draftOf } from '#domain/levels/levels-csv.ts'
import { LevelsPanel } from '../../../../web/panels/levels/LevelsPanel.tsx'
import { readFromFrozen, readFromPresent } from '../../../../web/state/frozen.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { levelFor } from '../../../support/level-for.ts'
import { presentEpochMs, smallSite } from '../../state/small-site.ts'

const level = levelFor({
  id: 'SP-1 one',
  series: 'SP-1/settlement',
  value: 22,
  holdReadings: 3,
  hysteresisShare: 0.1,
  validFrom: presentEpochMs - 1000,
})
const ended = levelFor({ id: 'SP-1 old', series: 'SP-1/settlement', validUntil: presentEpochMs - 1000 })
const list = (): LevelProposals => ({
  proposals: [
    {
      number: 1,
      author: 'Ada Marsh',
      account: null,
      reason: 'design report',
      atEpochMs: presentEpochMs,
      changes: [
        {
          kind: 'replace',
          id: level.id,
          before: level,
          level: { ...draftOf(level), id: 'SP-1 one (2)', value: 24 },
        },
      ],
      warnings: [{ level: null, severity: 'warning', code: 'x', sentence: 'It lies inside noise.' }],
      decision: null,
    },
  ],
  namesAreProven: false,
  mayDecide: true,
  signedInAs: null,
  account: null,
})
const preview: LevelPreview = {
  remarks: [{ level: 'x', severity: 'fault', code: 'beyond-range', sentence: 'It can never be reached.' }],
  issues: [],
  proposed: [],
  present: [],
}

let stop = () => {}
let sent: { path: string; content: unknown }[]
beforeEach(() => {
  sent = []
  showSite({ ...smallSite(), triggerLevels: [level, ended] })
  vi.stubGlobal('fetch', async (path: string, request?: RequestInit) => {
    if (request?.method === 'POST') sent.push({ path, content: JSON.parse(String(request.body)) })
    const answer = path.endsWith('/preview') ? preview : request?.method === 'POST' ? { number: 2 } : list()
    return new Response(JSON.stringify(answer), { headers: { 'content-type': 'application/json' } })
  })
  stop = render(() => <LevelsPanel />, document.body)
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
})

const text = () => document.body.textContent ?? ''
const button = (name: string) =>
  [...document.querySelectorAll('button')].find((one) =>
    (one.getAttribute('aria-label') ?? one.textContent)?.trim().startsWith(name),
  ) as HTMLButtonElement
const fill = (label: string, typed: string) => {
  const found = [...document.querySelectorAll('label')].findLast((one) =>
    one.textContent?.trim().startsWith(label),
  )
  const input = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  input.value = typed
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
}

test('the levels in force, in words, and which of them a change waits for', async () => {
  expect(text()).toContain('1 of 2 levels.')
  expect(text()).toContain('22 mm or more for 3 readings; left below 19.8 mm for 3 readings')
  expect(text()).not.toContain('SP-1 old')
  await vi.waitFor(() => expect(text()).toContain('A change waits for approval.'))
  expect(button('Proposals').textContent).toBe('Proposals, 1 waiting')
})

test('a second name decides, and who proposed cannot', async () => {
  await vi.waitFor(() => expect(text()).toContain('A change waits'))
  button('Proposals').click()
  expect(text()).toContain('names are typed and nobody proves them')
  expect(text()).toContain('It lies inside noise.')
  fill('Your name', 'ada  marsh')
  expect(button('Approve').disabled).toBe(true)
  expect(text()).toContain('Ada Marsh proposed this')
  fill('Your name', 'Ben Holm')
  fill('What was checked', 'report')
  expect(button('Approve').disabled).toBe(false)
  button('Reject').click()
  await vi.waitFor(() => expect(sent).toHaveLength(1))
  expect(sent[0]).toEqual({
    path: '/api/sites/small/level-proposals/1/rejection',
    content: { reason: 'report', author: 'Ben Holm' },
  })
})

test('who proposed by an account is offered no decision, whatever may be decided', async () => {
  stop()
  const one = list()
  const listed = {
    ...one,
    proposals: one.proposals.map((proposal) => ({ ...proposal, account: 'one' })),
    namesAreProven: true,
    account: 'one',
  }
  vi.stubGlobal(
    'fetch',
    async () => new Response(JSON.stringify(listed), { headers: { 'content-type': 'application/json' } }),
  )
  stop = render(() => <LevelsPanel />, document.body)
  await vi.waitFor(() => expect(text()).toContain('A change waits'))
  button('Proposals').click()
  expect(text()).toContain('An approver other than Ada Marsh decides.')
  expect(button('Approve')).toBeUndefined()
})

test('of frozen data there are none to be asked for, and that is said', () => {
  stop()
  readFromFrozen('a'.repeat(16))
  try {
    stop = render(() => <LevelsPanel />, document.body)
    expect(button('Proposals').textContent).toBe('Proposals, not known now')
    button('Proposals').click()
    expect(text()).toContain('This is not part of the frozen data.')
  } finally {
    readFromPresent()
  }
})

test('what is written is judged once typing rests, and proposed as a level of its own name', async () => {
  button('Change SP-1 one').click()
  expect(text()).toContain('It ends where the new one begins.')
  fill('Level', '24')
  await vi.waitFor(() => expect(text()).toContain('It can never be reached.'), 4000)
  expect(sent.at(-1)).toMatchObject({
    path: '/api/sites/small/level-proposals/preview',
    content: {
      fromEpochMs: null,
      changes: [{ kind: 'replace', id: 'SP-1 one', level: { id: 'SP-1 one (2)', value: 24 } }],
    },
  })
  fill('Level', 'much')
  expect(text()).toContain('“much” is not a number')
  const send = document.querySelector('form[aria-label="Propose"] button') as HTMLButtonElement
  expect(send.disabled).toBe(true)
})

test('what was found against one level does not stand beside another that is being written', async () => {
  button('Change SP-1 one').click()
  fill('Level', '24')
  await vi.waitFor(() => expect(text()).toContain('It can never be reached.'), 4000)
  fill('Level', '26')
  expect(text()).not.toContain('It can never be reached.')
})

test('that what speaks against an end could not be had is said, and not awaited for good', async () => {
  vi.stubGlobal('fetch', async () => new Response('{}', { status: 503 }))
  button('End SP-1 one').click()
  expect(text()).toContain('Looking at what speaks against it')
  await vi.waitFor(() => expect(text()).toContain('What speaks against it is not known:'), 4000)
  expect(text()).not.toContain('Looking at what speaks against it')
})

test('proposals that could not be had are not said to be none', async () => {
  stop()
  vi.stubGlobal('fetch', async () => new Response('{}', { status: 403 }))
  stop = render(() => <LevelsPanel />, document.body)
  await vi.waitFor(() => expect(button('Proposals').textContent).toBe('Proposals, not known now'))
  button('Proposals').click()
  expect(text()).toContain('Not known here.')
  expect(text()).not.toContain('None waits')
  expect(text()).not.toContain('None was decided')
})
