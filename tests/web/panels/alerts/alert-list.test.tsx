import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { AlertRecord } from '#contract/alerts.ts'
import { AlertsBanner } from '../../../../web/panels/AlertsBanner.tsx'
import { AlertsPanel } from '../../../../web/panels/alerts/AlertsPanel.tsx'
import { refreshAlerts } from '../../../../web/state/alerts.ts'
import { openAlertsPage } from '../../../../web/state/alerts-page.ts'
import { reportAnswer } from '../../../../web/state/connection.ts'
import { jumpToPresent, restoreClock } from '../../../../web/state/site-clock.ts'
import { showSite, showStates } from '../../../../web/state/site-document.ts'
import { moveSiteNow } from '../../../../web/state/site-now.ts'
import { leaveStep } from '../../../../web/state/step-draft.ts'
import { acknowledged, alertsDocumentOf, listedAlert, minuteMs } from '../../../support/listed-alerts.ts'
import { presentEpochMs, smallSite, smallStates } from '../../state/small-site.ts'

const zeroEpochMs = presentEpochMs - 60 * minuteMs
const waiting = listedAlert(12, [], { zeroEpochMs })
const taken = listedAlert(12, [[30, acknowledged('on my way'), 'Bo']], { zeroEpochMs })
let stop = () => {}
let document_ = alertsDocumentOf([waiting], presentEpochMs)
let sent: { path: string; content: unknown }[] = []
let answerStep: () => Response

const json = (content: unknown, status = 200, type = 'application/json') =>
  new Response(JSON.stringify(content), { status, headers: { 'content-type': type } })
const conflict = () =>
  json(
    { type: 'about:blank', title: 'Somebody acted meanwhile', status: 409, detail: 'Nothing was saved.' },
    409,
    'application/problem+json',
  )
const record = (): AlertRecord => ({
  alert: taken,
  events: [
    {
      number: 41,
      alert: 12,
      atEpochMs: zeroEpochMs + 30 * minuteMs,
      by: 'Bo',
      happening: acknowledged('on my way'),
    },
  ],
  names: {},
  escalation: [],
  latest: 41,
})

beforeEach(async () => {
  sent = []
  document_ = alertsDocumentOf([waiting], presentEpochMs)
  showSite(smallSite())
  showStates(smallStates())
  reportAnswer(Date.now())
  moveSiteNow(Date.now())
  vi.stubGlobal('fetch', async (path: string, request: RequestInit) => {
    if (request.method === 'POST') {
      sent.push({ path, content: JSON.parse(String(request.body)) })
      return answerStep()
    }
    return json(path.endsWith('/alerts') ? document_ : record())
  })
  await refreshAlerts('small')
  stop = render(() => <AlertsPanel />, document.body)
  await vi.waitFor(() => expect(region('Needs somebody now')).not.toBeNull())
})
afterEach(() => {
  stop()
  leaveStep()
  openAlertsPage('list')
  jumpToPresent()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
})
const region = (name: string) => document.querySelector(`section[aria-label="${name}"]`)
const button = (name: string) =>
  [...document.querySelectorAll('button')].find(
    (one) => (one.getAttribute('aria-label') ?? one.textContent?.trim()) === name,
  )
const form = () => document.querySelector('form')
const type = (label: string, text: string) => {
  const found = [...document.querySelectorAll('label')].find((one) => one.textContent?.trim() === label)
  const field = document.getElementById(found?.htmlFor ?? '') as HTMLTextAreaElement
  field.value = text
  field.dispatchEvent(new InputEvent('input', { bubbles: true }))
}
const typed = () => document.querySelector('textarea')?.value

test('only the next step is offered; it is sent with what was seen, and the list is asked again', async () => {
  expect(button('Acknowledge alert 12')).toBeDefined()
  expect(button('Verify alert 12')).toBeUndefined()
  expect(button('Close alert 12')).toBeUndefined()
  button('Acknowledge alert 12')?.click()
  type('What you are going to do', 'going there')
  type('Your name', 'Ada')
  answerStep = () => json(record())
  document_ = alertsDocumentOf([taken], presentEpochMs, { latest: 41 })
  form()?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))
  await vi.waitFor(() => expect(button('Verify alert 12')).toBeDefined())
  expect(sent).toEqual([
    {
      path: '/api/sites/small/alerts/12/acknowledge',
      content: { step: { kind: 'acknowledge', note: 'going there' }, author: 'Ada', latest: 40 },
    },
  ])
  expect(region('Acknowledged, to be verified')?.textContent).toContain('Taken up by Bo')
  expect(region('Needs somebody now')?.textContent).toContain('says nothing of channels without current data')
})

test('what others did meanwhile is told, and what is typed is kept', async () => {
  button('Acknowledge alert 12')?.click()
  type('What you are going to do', 'going there')
  type('Your name', 'Ada')
  answerStep = conflict
  document_ = alertsDocumentOf([taken], presentEpochMs, { latest: 41 })
  form()?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))
  await vi.waitFor(() =>
    expect(document.querySelector('[role=alert]')?.textContent).toContain('Taken up by Bo: on my way'),
  )
  expect(document.querySelector('[role=alert]')?.textContent).toContain('nothing was saved')
  // The list came anew and the alert stands in another part of it.
  await vi.waitFor(() =>
    expect(region('Acknowledged, to be verified')?.querySelector('article')).not.toBeNull(),
  )
  expect(typed()).toBe('going there')
  expect((document.querySelector('form [type=submit]') as HTMLButtonElement).disabled).toBe(true)
})

test('at a past clock no step is offered, and it is said to be as it stood', () => {
  restoreClock(presentEpochMs - 30 * minuteMs)
  expect(document.body.textContent).toContain('As it stood at')
  expect(button('Acknowledge alert 12')).toBeUndefined()
  expect(region('Needs somebody now')?.querySelectorAll('article')).toHaveLength(1)
})

test('the cautions stand over the list, and what is not known takes the place of any all-clear', async () => {
  const text = () => document.body.textContent ?? ''
  expect(text()).toContain('do not replace, the judgement of the responsible engineer')
  expect(text()).toContain('No alert does not mean no movement')
  expect(text()).toMatch(
    /No level reached on 3 of 4 channels with data to 1 Jun .*; 0 channels have no current data/,
  )
  document_ = alertsDocumentOf([], presentEpochMs, {
    unknown: [{ series: 1, lastEpochMs: presentEpochMs - 600 * minuteMs, critical: true }],
  })
  const banner = render(() => <AlertsBanner />, document.body)
  await refreshAlerts('small')
  expect(
    button('1 of 4 watched channels has no current data, the oldest since 1 Jun 02:00; 1 of them critical.'),
  ).toBeDefined()
  expect(text()).not.toMatch(/\b(safe|OK|normal|all clear)\b/i)
  banner()
})
