import { createRoot } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import type { BoardsConflict } from '#contract/meetings.ts'
import type { Role } from '#domain/access/permissions.ts'
import type { Board, Meeting } from '#domain/meeting/meeting.ts'
import type { Minute } from '#domain/meeting/minute.ts'
import { GatheringStrip } from '../../../../web/panels/meetings/GatheringStrip.tsx'
import { MeetingsPanel } from '../../../../web/panels/meetings/MeetingsPanel.tsx'
import { MinutesAbout } from '../../../../web/panels/meetings/MinutesAbout.tsx'
import { readAddress } from '../../../../web/state/address.ts'
import { restoreAddress } from '../../../../web/state/address-bar.ts'
import {
  gatherFor,
  openedMeeting,
  openMeeting,
  workOnBoards,
  workOnMinute,
} from '../../../../web/state/meeting-work.ts'
import { knowOwnAccount, me } from '../../../../web/state/own-account.ts'
import { selectInstrument, selection, selectNothing } from '../../../../web/state/selection.ts'
import { openSheet, sheetTab } from '../../../../web/state/sheet.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { presentEpochMs, smallSite } from '../../state/small-site.ts'

const dayMs = 86_400_000
const board = (title: string): Board => ({ kind: 'plan', title, address: 'site=small', seconds: 30 })
const meeting = (id: number, some: Partial<Meeting> = {}): Meeting => ({
  id,
  site: 'small',
  title: `Meeting ${id}`,
  heldAtEpochMs: presentEpochMs - dayMs * (10 - id),
  frozenSet: 'a'.repeat(16),
  cutOffEpochMs: presentEpochMs - dayMs * (11 - id),
  previous: id === 1 ? null : id - 1,
  boards: [board('One'), board('Two'), board('Three')],
  version: 1,
  author: 'Ada Marsh',
  atEpochMs: 0,
  ...some,
})
const minute = (id: number, some: Partial<Minute> = {}): Minute => ({
  id,
  site: 'small',
  meeting: 2,
  kind: 'action',
  text: `Action ${id}`,
  places: ['PZ-1A'],
  owner: 'Site surveyor',
  dueOn: '2027-06-10',
  author: 'Ada Marsh',
  atEpochMs: 0,
  entries: [],
  ...some,
})

let stops: (() => void)[] = []
let meetings: Meeting[]
let minutes: Minute[]
let sent: { method: string; path: string; content: Record<string, unknown> }[]
/** What a change is answered with; undefined: as the server would. */
let answers: (() => Response) | undefined
const json = (content: unknown, status = 200) =>
  new Response(JSON.stringify(content), {
    status,
    headers: { 'content-type': status < 400 ? 'application/json' : 'application/problem+json' },
  })
const problem = (status: number, more: object = {}) =>
  json({ type: 'x', title: 'x', status, detail: 'It was not taken.', ...more }, status)

/** How often the list was asked for; what an earlier test left is not taken for the answer. */
let heard = 0
let known: Me
const as = async (role: Role | null) => {
  known =
    role === null
      ? ({ accounts: 'to-change', person: null, link: null } as unknown as Me)
      : ({
          accounts: 'needed',
          link: null,
          person: { id: 'p', name: 'Ben Holm', memberships: [{ site: 'small', role }] },
        } as unknown as Me)
  stops.push(
    createRoot((dispose) => {
      knowOwnAccount()
      return dispose
    }),
  )
  await vi.waitFor(() => expect(me()).toEqual(known))
}

beforeEach(() => {
  stops = []
  sent = []
  heard = 0
  answers = undefined
  meetings = [meeting(2, { frozenSet: null }), meeting(1)]
  minutes = [
    minute(1, { dueOn: '2027-05-20' }),
    minute(2, { kind: 'note', owner: null, dueOn: null, text: 'A note', places: [] }),
    minute(3, { entries: [{ standing: 'done', note: 'Looked at', author: 'C', atEpochMs: 0 }] }),
  ]
  showSite(smallSite())
  vi.stubGlobal('fetch', async (path: string, request: RequestInit = {}) => {
    const method = request.method ?? 'GET'
    if (path === '/api/me') return json(known)
    if (method !== 'GET') {
      const content = JSON.parse(String(request.body)) as Record<string, unknown>
      sent.push({ method, path, content })
      if (answers) return answers()
      if (path.endsWith('/boards'))
        return json(meeting(2, { version: Number(content.version) + 1, boards: content.boards as Board[] }))
      if (path.endsWith('/freeze')) return json(meeting(2))
      if (path.endsWith('/frozen')) return json({ id: 'b'.repeat(16), site: 'small', ...content }, 201)
      if (path.endsWith('/meetings'))
        return json(meeting(3, { ...(content as Partial<Meeting>), id: 3 }), 201)
      if (path.endsWith('/minutes')) return json(minute(4, content as Partial<Minute>), 201)
      return json(
        minute(1, {
          dueOn: '2027-05-20',
          entries: [{ ...(content as unknown as Minute['entries'][0]), atEpochMs: 0 }],
        }),
        201,
      )
    }
    if (path.endsWith('/meetings')) return json({ meetings })
    if (path.endsWith('/minutes')) {
      heard++
      return json({ minutes, today: '2027-06-01' })
    }
    if (path.includes('/frozen/'))
      return json({
        frozenAtEpochMs: presentEpochMs,
        frozenBy: 'Ada Marsh',
        readings: { all: 2000, provisional: 3 },
      })
    return json({ entries: [] })
  })
})
afterEach(() => {
  for (const stop of stops) stop()
  document.body.replaceChildren()
  openMeeting(null)
  gatherFor(null)
  for (const id of [1, 2, 3]) {
    workOnBoards(id, null)
    workOnMinute(id, null)
  }
  selectNothing()
  openSheet('history')
  vi.unstubAllGlobals()
  localStorage.clear()
})

const text = () => document.body.textContent ?? ''
const buttons = () => [...document.querySelectorAll('button')]
const button = (name: string) => {
  const found = buttons().find((one) =>
    (one.getAttribute('aria-label') ?? one.textContent)?.trim().startsWith(name),
  )
  if (!found) throw new Error(`no button ${name} among ${buttons().map((one) => one.textContent)}`)
  return found
}
const fill = (label: string, typed: string) => {
  const found = [...document.querySelectorAll('label')].findLast((one) =>
    one.textContent?.trim().startsWith(label),
  )
  const input = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  input.value = typed
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
  return input
}
const submit = (name: string) =>
  document
    .querySelector(`form[aria-label="${name}"]`)
    ?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))
const open = async (id = 2) => {
  stops.push(render(() => <MeetingsPanel />, document.body))
  await vi.waitFor(() => expect(heard).toBe(1))
  await new Promise((resolve) => setTimeout(resolve))
  button(`Meeting ${id}`).click()
}
const titles = () =>
  [...document.querySelectorAll<HTMLInputElement>('.board-title')].map(({ value }) => value)

test('the list says of each meeting its cut-off, whether it is frozen, and what is overdue', async () => {
  await as('engineer')
  stops.push(render(() => <MeetingsPanel />, document.body))
  await vi.waitFor(() => expect(text()).toContain('Meeting 2'))
  const [second, first] = [...document.querySelectorAll('.meetings-list > li')].map((one) => one.textContent)
  expect(second).toContain('not frozen yet')
  expect(second).toContain('1 open action, overdue')
  expect(first).toContain('no action was agreed')
  expect(button('Actions').textContent).toBe('Actions, 1 overdue')
})

test.each([['viewer' as const], [null]])('who only reads (%s) sees all of it, and no form', async (role) => {
  await as(role)
  await open()
  expect(text()).toContain('overdue by 12 days, due 20 May 2027')
  expect(text()).toContain('Looked at')
  button('Boards').click()
  expect(text()).toContain('Three')
  expect(text()).toContain('not frozen yet')
  expect(document.querySelectorAll('form, input, select, textarea')).toHaveLength(0)
  expect(buttons().filter(({ disabled }) => disabled)).toEqual([])
  for (const name of ['Make', 'Freeze', 'Write', 'Say', 'Gather', 'Move', 'Remove'])
    expect(() => button(name)).toThrow('no button')
  button('Actions').click()
  expect(text()).toContain('1 open action, overdue.')
})

test('a link leads to the page of a meeting, and looking at a board leads back to it', async () => {
  meetings = [
    meeting(2, { boards: [{ ...board('Pressures'), address: 'site=small&selected=instrument%3APZ-1' }] }),
  ]
  await as('viewer')
  restoreAddress(readAddress('?site=small&sheet=meetings&held=2'))
  stops.push(render(() => <MeetingsPanel />, document.body))
  await vi.waitFor(() => expect(text()).toContain('overdue by 12 days'))
  button('Boards').click()
  await vi.waitFor(() => button('Look at Pressures').click())
  expect([sheetTab(), selection(), openedMeeting()]).toEqual([
    'history',
    { kind: 'instrument', instrument: 'PZ-1' },
    2,
  ])
})

test('boards are moved by button, the focus goes with them, and they are saved once', async () => {
  await as('engineer')
  await open()
  button('Boards').click()
  expect(text()).not.toContain('not saved')
  button('Move board 1, One down').click()
  expect(titles()).toEqual(['Two', 'One', 'Three'])
  expect(document.activeElement?.getAttribute('aria-label')).toBe('Move board 2, One down')
  ;(document.activeElement as HTMLButtonElement).click()
  expect(titles()).toEqual(['Two', 'Three', 'One'])
  // It is the last: further down there is nothing, so the way back has the focus.
  expect(document.activeElement?.getAttribute('aria-label')).toBe('Move board 3, One up')
  button('Remove board 2').click()
  const title = document.querySelector<HTMLInputElement>('.board-title') as HTMLInputElement
  title.value = 'Second'
  title.dispatchEvent(new InputEvent('input', { bubbles: true }))
  // Typing goes on in the same field.
  expect(document.querySelector('.board-title')).toBe(title)
  expect(sent).toEqual([])
  submit('Boards of the meeting')
  await vi.waitFor(() => expect(sent).toHaveLength(1))
  expect(sent[0]).toMatchObject({
    method: 'PUT',
    path: '/api/sites/small/meetings/2/boards',
    content: { version: 1, author: 'Ben Holm', boards: [{ title: 'Second' }, { title: 'One' }] },
  })
  await vi.waitFor(() => expect(text()).not.toContain('not saved'))
  expect(titles()).toEqual(['Second', 'One'])
})

test('the last board cannot be removed', async () => {
  meetings = [meeting(2, { boards: [board('Alone')] })]
  await as('engineer')
  await open()
  button('Boards').click()
  expect(() => button('Remove')).toThrow('no button')
})

test('boards saved by somebody else meanwhile are shown beside one’s own, and either may be kept', async () => {
  await as('engineer')
  await open()
  button('Boards').click()
  button('Move board 1, One down').click()
  const latest = meeting(2, { version: 2, boards: [board('Theirs')] })
  answers = () => {
    answers = undefined
    return problem(409, {
      detail: 'Cleo Hart saved version 2.',
      issues: [
        { code: 'boards-changed-meanwhile', column: 'version', message: 'Cleo Hart saved version 2.' },
      ],
      latest,
      sent: [],
    } satisfies Partial<BoardsConflict>)
  }
  submit('Boards of the meeting')
  await vi.waitFor(() => expect(text()).toContain('Theirs'))
  expect(text()).toContain('Cleo Hart saved version 2.')
  expect(titles()).toEqual(['Two', 'One', 'Three'])
  button('Save mine over it').click()
  await vi.waitFor(() => expect(sent).toHaveLength(2))
  expect(sent[1]?.content).toMatchObject({ version: 2, boards: [{ title: 'Two' }, {}, {}] })
  await vi.waitFor(() => expect(text()).not.toContain('Theirs'))
})

test('an action is tied to what is selected and to others, and not lost when the server fails', async () => {
  selectInstrument('SP-1')
  await as('field')
  await open()
  button('Write something down').click()
  fill('What is to be done', 'Level it again')
  button('Add SP-1').click()
  fill('About', 'PZ-1A')
  button('Add PZ-1A').click()
  fill('About', 'PZ-9')
  expect(text()).toContain('no point or instrument of this name')
  fill('About', '')
  fill('Who does it', 'Site surveyor')
  fill('By which day', '2027-06-20')
  answers = () => problem(503)
  submit('Write down')
  await vi.waitFor(() => expect(text()).toContain('It was not taken.'))
  // Looking at something else and coming back finds it as it was.
  button('Boards').click()
  button('Minutes and actions').click()
  expect((document.querySelector('textarea') as HTMLTextAreaElement).value).toBe('Level it again')
  answers = undefined
  submit('Write down')
  await vi.waitFor(() => expect(sent).toHaveLength(2))
  expect(sent[1]).toMatchObject({
    path: '/api/sites/small/meetings/2/minutes',
    content: {
      kind: 'action',
      text: 'Level it again',
      places: ['SP-1', 'PZ-1A'],
      owner: 'Site surveyor',
      dueOn: '2027-06-20',
      author: 'Ben Holm',
    },
  })
  await vi.waitFor(() => expect(document.querySelector('textarea')).toBeNull())
  expect(text()).toContain('Level it again')
})

test('what is wrong with a minute is told beside its field, and text is shown as letters', async () => {
  minutes = [minute(1, { text: '<img src=x onerror=alert(1)>' })]
  await as('field')
  await open()
  expect(text()).toContain('<img src=x onerror=alert(1)>')
  expect(document.querySelector('.minutes-list img')).toBeNull()
  button('Write something down').click()
  answers = () =>
    problem(400, {
      issues: [{ code: 'due-before-meeting', column: 'dueOn', message: 'Before the meeting.' }],
    })
  submit('Write down')
  await vi.waitFor(() => expect(text()).toContain('Before the meeting.'))
  const day = document.querySelector('input[type="date"]')
  expect(day?.getAttribute('aria-invalid')).toBe('true')
  expect(document.activeElement).toBe(day)
})

test('what became of an action is said with a note', async () => {
  await as('field')
  await open()
  button('Say what became of it').click()
  fill('What was done or found', 'Levelled, no change')
  submit('How the action stands')
  await vi.waitFor(() => expect(text()).toContain('Levelled, no change'))
  expect(sent[0]).toEqual({
    method: 'POST',
    path: '/api/sites/small/minutes/1/entries',
    content: { standing: 'done', note: 'Levelled, no change', author: 'Ben Holm' },
  })
  expect(text()).toContain('done, was due 20 May 2027')
  expect(text()).not.toContain('overdue')
})

test('a planned meeting is frozen by a press, and then leads to the wall', async () => {
  await as('engineer')
  await open()
  expect(document.querySelector('a')).toBeNull()
  submit('Freeze its data')
  await vi.waitFor(() => expect(text()).toContain('2,000 readings, less than 1 % of them provisional.'))
  expect(document.querySelector('a')?.getAttribute('href')).toBe('?site=small&meeting=2&board=1')
})

test('a meeting is made over what is frozen first; frozen once even where the meeting is refused', async () => {
  await as('engineer')
  stops.push(render(() => <MeetingsPanel />, document.body))
  await vi.waitFor(() => expect(text()).toContain('Meeting 2'))
  button('Make a meeting').click()
  expect(text()).toContain('What a gateway or this server received later is not in it')
  expect(text()).toContain('It begins with the boards of Meeting 2')
  fill('Title', 'October')
  fill('Data as received by', '2027-06-01T10:00')
  const wanted = Date.UTC(2027, 5, 1, 10)
  let asked = 0
  answers = () => {
    asked++
    return asked === 1
      ? json({ id: 'b'.repeat(16), site: 'small', cutOffEpochMs: wanted }, 201)
      : problem(400, { issues: [{ code: 'title-expected', column: 'title', message: 'Another title.' }] })
  }
  submit('Make a meeting')
  await vi.waitFor(() => expect(text()).toContain('Another title.'))
  answers = undefined
  submit('Make a meeting')
  await vi.waitFor(() => expect(openedMeeting()).toBe(3))
  expect(sent.map(({ path }) => path.split('/').at(-1))).toEqual(['frozen', 'meetings', 'meetings'])
  expect(sent[0]?.content).toEqual({ cutOffEpochMs: wanted, author: 'Ben Holm' })
  expect(sent[2]?.content).toMatchObject({
    title: 'October',
    frozenSet: 'b'.repeat(16),
    boards: [{ title: 'One' }, { title: 'Two' }, { title: 'Three' }],
  })
})

test('whatever is seen is put on a board from wherever one is', async () => {
  await as('engineer')
  stops.push(render(() => <MeetingsPanel />, document.body))
  await vi.waitFor(() => expect(text()).toContain('Meeting 2'))
  gatherFor(2)
  stops.push(render(() => <GatheringStrip />, document.body))
  selectInstrument('SP-1')
  openSheet('history')
  button('Put what I see on a board').click()
  expect(fill('Title', 'Settlement of SP-1').value).toBe('Settlement of SP-1')
  answers = () => problem(503)
  submit('Board of what is seen')
  await vi.waitFor(() => expect(text()).toContain('It was not taken.'))
  answers = undefined
  submit('Board of what is seen')
  await vi.waitFor(() => expect(sent).toHaveLength(2))
  expect(sent[1]?.content).toMatchObject({
    version: 1,
    boards: [
      { title: 'One' },
      { title: 'Two' },
      { title: 'Three' },
      { kind: 'history', title: 'Settlement of SP-1', address: 'site=small&selected=instrument%3ASP-1' },
    ],
  })
  await vi.waitFor(() => expect(button('Meeting 2, 4 boards')).toBeTruthy())
  button('Finish').click()
  expect(text()).not.toContain('Put what I see')
})

test('a failure is said, with what is known left standing, and asked again by a press', async () => {
  await as('engineer')
  const answering = globalThis.fetch
  vi.stubGlobal('fetch', async () => problem(500))
  stops.push(render(() => <MeetingsPanel />, document.body))
  await vi.waitFor(() => expect(text()).toContain('It was not taken.'))
  vi.stubGlobal('fetch', answering)
  button('Ask again').click()
  await vi.waitFor(() => expect(text()).not.toContain('It was not taken.'))
  expect(text()).toContain('Meeting 2')
})

test('the record of an instrument tells what meetings wrote down about it, overdue first', async () => {
  minutes = [
    minute(5, { kind: 'note', owner: null, dueOn: null, text: 'Said of the string', places: ['PZ-1'] }),
    minute(1, { dueOn: '2027-05-20' }),
    minute(6, { text: 'Of another', places: ['SP-1'] }),
  ]
  await as('viewer')
  selectInstrument('PZ-1')
  stops.push(render(() => <MinutesAbout />, document.body))
  await vi.waitFor(() => expect(text()).toContain('1 open action, overdue'))
  const listed = [...document.querySelectorAll('.minutes-list > li')].map((one) => one.textContent ?? '')
  expect(listed).toHaveLength(2)
  expect(listed[0]).toContain('overdue by 12 days')
  expect(listed[0]).toContain('Mon 24 May 2027')
  expect(text()).not.toContain('Of another')
  button('Meeting 2').click()
  expect([sheetTab(), openedMeeting()]).toEqual(['meetings', 2])
})
