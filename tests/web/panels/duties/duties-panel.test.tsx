import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { DutiesDocument } from '#contract/duties-document.ts'
import { DutiesPanel } from '../../../../web/panels/duties/DutiesPanel.tsx'
import { refreshDuties } from '../../../../web/state/duties.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { presentEpochMs, smallSite } from '../../state/small-site.ts'

const day = 86_400_000
const document0 = (): DutiesDocument => ({
  site: 'small',
  atEpochMs: presentEpochMs,
  coveredUntilEpochMs: presentEpochMs + 56 * day,
  duties: [
    {
      duty: 'Monitoring engineer',
      levels: 2,
      now: [
        { order: 1, name: 'Ada Marsh', ways: ['email'], untilEpochMs: presentEpochMs + day / 4 },
        { order: 2, name: 'Ben Hale', ways: [], untilEpochMs: presentEpochMs + day },
      ],
      week: {
        fromEpochMs: presentEpochMs,
        untilEpochMs: presentEpochMs + 7 * day,
        turns: [
          { order: 1, name: 'Ada Marsh', fromEpochMs: presentEpochMs, untilEpochMs: presentEpochMs + day },
        ],
      },
      holes: [
        {
          fromEpochMs: presentEpochMs + day,
          untilEpochMs: presentEpochMs + 2 * day,
          because: 'nobody',
          sentence: 'Nobody is on for Monitoring engineer from Tue 03:00 to 05:00.',
        },
      ],
      steps: ['Step one.', 'Step two.'],
      stepsWritten: true,
    },
  ],
  holidays: [{ date: '2027-06-10', name: 'Quay day', zone: null }],
  suppressions: [
    {
      id: 'SU-1',
      covers: 'instrument',
      name: 'SP-1',
      fromAt: presentEpochMs - day,
      untilAt: presentEpochMs + day,
      reason: 'Mark is rebuilt',
      author: 'A. Reed',
      ended: null,
      untilEpochMs: presentEpochMs + day,
      stands: true,
    },
  ],
  nowhere: ['Ben Hale: there is no webhook "gate" that is sent to.'],
})

let stop = () => {}
let sent: { method: string; path: string; content: unknown }[]
let holesAfter: readonly string[]
let duties: () => Response
const json = (content: unknown, status = 200) =>
  new Response(JSON.stringify(content), { status, headers: { 'content-type': 'application/json' } })

beforeEach(() => {
  sent = []
  holesAfter = ['Nobody is on for Monitoring engineer from Wed 03:00 to 05:00.']
  duties = () => json(document0())
  showSite(smallSite())
  vi.stubGlobal('fetch', async (path: string, request: RequestInit) => {
    const method = request.method ?? 'GET'
    if (method !== 'GET') sent.push({ method, path, content: JSON.parse(String(request.body)) })
    if (path.endsWith('/duties')) return duties()
    if (path.endsWith('/preview'))
      return json({
        rowsBefore: 2,
        rowsAfter: 3,
        untilEpochMs: presentEpochMs,
        duties: [{ duty: 'Monitoring engineer', holesBefore: [], holesAfter }],
      })
    return json({ file: 'duty-shifts.csv', text: 'id,duty\n', hash: 'h1' })
  })
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
})

const show = async () => {
  stop = render(() => <DutiesPanel />, document.body)
  await vi.waitFor(() => expect(document.querySelector('.duty-section')).not.toBeNull())
}
const button = (name: string) =>
  [...document.querySelectorAll('button')].find(
    (one) => (one.getAttribute('aria-label') ?? one.textContent)?.trim() === name,
  ) as HTMLButtonElement
const fill = (label: string, text: string) => {
  const found = [...document.querySelectorAll('label')].find((one) =>
    one.textContent?.trim().startsWith(label),
  )
  const input = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  input.value = text
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
}
const submit = (name: string) =>
  document
    .querySelector(`form[aria-label="${name}"]`)
    ?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))

test('who is on, until when and by what, holes in words and hatch, steps and what is not sent', async () => {
  await show()
  const text = document.body.textContent ?? ''
  expect(text).toMatch(/Ada Marsh by mail; on until .*, for 6 h/)
  expect(text).toContain('Ben Hale cannot be reached in any way')
  expect(text).toContain('Once until')
  expect(text).toContain('Nobody is on for Monitoring engineer from Tue 03:00 to 05:00.')
  expect(document.querySelectorAll('.duty-hole')).toHaveLength(1)
  expect(document.querySelectorAll('table tbody tr')).toHaveLength(1)
  expect(text).toContain('Step two.')
  expect(text).toContain('no webhook "gate"')
  expect(text).toMatch(/instrument SP-1 until .*, 24 h left: Mark is rebuilt/)
  expect(text).toContain('2027-06-10: Quay day')
})

test('a form stays as it is filled, and a card as it is opened, while who is on is asked again', async () => {
  await show()
  button('End SU-1 now').click()
  fill('Why it is ended', 'Half a sent')
  const opened = document.querySelector('details') as HTMLDetailsElement
  opened.open = true
  await refreshDuties('small')
  expect((document.querySelector('form textarea') as HTMLTextAreaElement).value).toBe('Half a sent')
  expect(document.querySelector('details')).toBe(opened)
  expect(opened.isConnected).toBe(true)
})

test('something is held back for a reason, and ended by another record', async () => {
  await show()
  button('Hold something back …').click()
  fill('Its name', 'SP-1')
  fill('Reason', 'Rebuilt')
  fill('Your name', 'B. Hale')
  fill('Until', '2027-06-03T12:00')
  submit('Hold something back')
  await vi.waitFor(() => expect(sent).toHaveLength(1))
  expect(sent[0]).toEqual({
    method: 'POST',
    path: '/api/sites/small/suppressions',
    content: {
      covers: 'instrument',
      name: 'SP-1',
      // Site time is Azores summer time, on UTC.
      untilEpochMs: Date.parse('2027-06-03T12:00:00Z'),
      reason: 'Rebuilt',
      author: 'B. Hale',
    },
  })
  button('End SU-1 now').click()
  fill('Why it is ended', 'Done')
  submit('End of a suppression')
  await vi.waitFor(() => expect(sent).toHaveLength(2))
  expect(sent[1]).toMatchObject({
    path: '/api/sites/small/suppressions/ends',
    content: { suppression: 'SU-1', reason: 'Done', author: 'B. Hale' },
  })
})

test('a roster is saved after a look at its holes, which must be known', async () => {
  await show()
  button('Shifts …').click()
  await vi.waitFor(() => expect(document.querySelector('.roster-text')).not.toBeNull())
  fill('duty-shifts.csv', 'id,duty\nx,y\n')
  submit('Text of duty-shifts.csv')
  await vi.waitFor(() => expect(document.body.textContent).toContain('Wed 03:00 to 05:00'))
  expect(button('Save it').disabled).toBe(true)
  const known = document.querySelector('.duty-check input') as HTMLInputElement
  known.checked = true
  known.dispatchEvent(new InputEvent('input', { bubbles: true }))
  expect(button('Save it').disabled).toBe(false)
  fill('Why it is changed', 'Nights')
  fill('Your name', 'B. Hale')
  // Another text wants another look.
  fill('duty-shifts.csv', 'id,duty\nx,z\n')
  expect(button('Look at its effect')).toBeDefined()
  fill('duty-shifts.csv', 'id,duty\nx,y\n')
  submit('Text of duty-shifts.csv')
  await vi.waitFor(() => expect(sent.some(({ method }) => method === 'PUT')).toBe(true))
  expect(sent.find(({ method }) => method === 'PUT')).toEqual({
    method: 'PUT',
    path: '/api/sites/small/roster/duty-shifts',
    content: {
      text: 'id,duty\nx,y\n',
      basedOn: 'h1',
      holesKnown: true,
      reason: 'Nights',
      author: 'B. Hale',
    },
  })
})

test('a server that does not answer is told beside what was known', async () => {
  await show()
  duties = () => new Response('', { status: 503 })
  await refreshDuties('small')
  expect(document.querySelector('.duties-panel > [role="alert"]')?.textContent).toMatch(
    /503.*What is shown was heard .*may have changed since/,
  )
})
