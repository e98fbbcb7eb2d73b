import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { AlertDelivery, WebhookEntry } from '#contract/alert-delivery.ts'
import { SiteWebhooks } from '../../../../web/panels/alerts/SiteWebhooks.tsx'

const relay: WebhookEntry = {
  id: 'w1',
  name: 'Control room',
  url: 'https://receiver.example/hook',
  kinds: ['raised'],
  madeBy: 'Ada Marsh',
  madeAtEpochMs: 0,
  disabledAtEpochMs: null,
  disabledWhy: null,
  scheme: 'shared-secret',
  secretMadeAtEpochMs: 0,
  earlierSecretEndsAtEpochMs: null,
}
let stop = () => {}
let delivery: AlertDelivery
let answer: () => Response
const sent: { method: string; path: string; body: unknown }[] = []
const json = (content: object, status = 200) =>
  new Response(JSON.stringify(content), {
    status,
    headers: { 'content-type': status < 400 ? 'application/json' : 'application/problem+json' },
  })

beforeEach(async () => {
  sent.length = 0
  delivery = { mail: null, webhooks: [relay] }
  vi.stubGlobal('fetch', async (path: string, { method = 'GET', body }: RequestInit) => {
    if (method === 'GET') return json(delivery)
    sent.push({ method, path, body: typeof body === 'string' ? JSON.parse(body) : null })
    return answer()
  })
  stop = render(() => <SiteWebhooks site="small-quay" siteName="Small Quay" />, document.body)
  await vi.waitFor(() => expect(document.body.textContent).toContain('Control room'))
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

const button = (name: string) =>
  [...document.querySelectorAll('button')].find((one) => one.textContent?.trim() === name)
const field = (name: string) => document.querySelector<HTMLInputElement>(`[name=${name}]`)

test('that mail is not set up is said, and by what it is', () => {
  expect(document.body.textContent).toContain('No mail is sent')
  expect(document.body.textContent).toContain('STILLGROUND_SMTP_URL')
})

test('a webhook is added with what was chosen, and its secret shown with its name', async () => {
  answer = () => json({ id: 'w2', given: 'whsec_once', earlierEndsAtEpochMs: null }, 201)
  const [name, url] = [field('name'), field('url')]
  if (!name || !url) throw new Error('no fields')
  name.value = 'Relay'
  url.value = 'https://relay.example/'
  for (const box of document.querySelectorAll<HTMLInputElement>('[name=kinds]'))
    box.checked = ['raised', 'silence'].includes(box.value)
  delivery = { ...delivery, webhooks: [relay, { ...relay, id: 'w2', name: 'Relay' }] }
  button('Add it')?.click()
  await vi.waitFor(() => expect(document.querySelector('.given-secret')?.textContent).toContain('Relay'))
  expect(document.querySelector('.given-secret code')?.textContent).toBe('whsec_once')
  expect(sent).toEqual([
    {
      method: 'POST',
      path: '/api/sites/small-quay/webhooks',
      body: {
        name: 'Relay',
        url: 'https://relay.example/',
        kinds: ['raised', 'silence'],
        scheme: 'shared-secret',
      },
    },
  ])
})

test('what is wrong stands beside its field', async () => {
  answer = () =>
    json(
      {
        type: '/problems/x',
        title: 'x',
        status: 400,
        detail: 'Nothing was changed.',
        issues: [{ code: 'url-scheme', column: 'url', message: 'ftp: is not sent to.' }],
      },
      400,
    )
  button('Add it')?.click()
  await vi.waitFor(() => expect(field('url')?.getAttribute('aria-invalid')).toBe('true'))
  const told = document.getElementById(field('url')?.getAttribute('aria-describedby') ?? '')
  expect(told?.textContent).toBe('ftp: is not sent to.')
})

test('what became of a test is told in the words of the server', async () => {
  answer = () =>
    json({ attempts: [{ outcome: 'failed', detail: 'Control room: the receiver answered 500.' }] })
  button('Send a test')?.click()
  await vi.waitFor(() =>
    expect(document.querySelector('.attempts')?.textContent).toBe(
      'Not handed over. Control room: the receiver answered 500.',
    ),
  )
})

test('removing asks first', async () => {
  answer = () => new Response(null, { status: 204 })
  button('Remove')?.click()
  await vi.waitFor(() => expect(button('Remove Control room and its secret')).toBeTruthy())
  expect(sent).toEqual([])
  button('Remove Control room and its secret')?.click()
  await vi.waitFor(() =>
    expect(sent).toEqual([{ method: 'DELETE', path: '/api/sites/small-quay/webhooks/w1', body: null }]),
  )
})
