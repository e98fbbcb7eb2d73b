import { createRoot, createSignal } from 'solid-js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import { AuthorField } from '../../../../web/panels/signed/AuthorField.tsx'
import { createSignedForm } from '../../../../web/panels/signed/create-signed-form.ts'
import { WordsField } from '../../../../web/panels/signed/WordsField.tsx'
import { ServerRefused } from '../../../../web/state/ask-server.ts'
import { knowOwnAccount, me } from '../../../../web/state/own-account.ts'
import { rememberedName } from '../../../../web/state/own-name.ts'

const stops: (() => void)[] = []
let known: Me
let authors: string[]
let refusal: Error | null
beforeEach(() => {
  authors = []
  refusal = null
  localStorage.clear()
  vi.stubGlobal('fetch', async () => Response.json(known))
})
afterEach(() => {
  for (const stop of stops.splice(0)) stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
})

function Form() {
  const form = createSignedForm((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal('')
  const save = async (author: string) => {
    authors.push(author)
    if (refusal) throw refusal
  }
  return (
    <form onSubmit={form.submits(save)}>
      <WordsField form={form} field="reason" label="Reason" value={reason()} write={setReason} />
      <AuthorField form={form} />
      {form.faults.summary()}
    </form>
  )
}

async function show(person: Me['person']): Promise<HTMLInputElement> {
  known = { accounts: person ? 'needed' : 'not-needed', person, link: null, hindrance: null }
  stops.push(
    createRoot((dispose) => {
      knowOwnAccount()
      return dispose
    }),
  )
  await vi.waitFor(() => expect(me()).toEqual(known))
  stops.push(render(() => <Form />, document.body))
  return document.querySelector('input') as HTMLInputElement
}
const type = (input: HTMLInputElement, text: string) => {
  input.value = text
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
}
const submit = () =>
  document
    .querySelector('form')
    ?.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }))

test('where nobody signs in a name is typed, sent, and proposed the next time', async () => {
  const name = await show(null)
  expect(name.readOnly).toBe(false)
  type(name, 'Ben Holm')
  submit()
  await vi.waitFor(() => expect(authors).toEqual(['Ben Holm']))
  expect(rememberedName()).toBe('Ben Holm')
})

test('where somebody is signed in the name of the account stands there and signs', async () => {
  localStorage.setItem('own-name', 'Ben Holm')
  const name = await show({ name: 'A. Reed', signInName: 'reed', memberships: [] })
  expect(name.value).toBe('A. Reed')
  expect(name.readOnly).toBe(true)
  expect(document.body.textContent).toContain('the name of your account')
  type(name, 'Somebody else')
  submit()
  await vi.waitFor(() => expect(authors).toEqual(['A. Reed']))
})

test('what the server refuses is told beside its field, which gets the focus, and goes with the next attempt', async () => {
  await show(null)
  refusal = new ServerRefused({
    type: '/problems/refused',
    title: 'Refused',
    status: 400,
    detail: 'Nothing was saved.',
    issues: [{ code: 'reason-missing', column: 'reason', message: 'Give a reason.' }],
  })
  submit()
  const area = document.querySelector('textarea') as HTMLTextAreaElement
  await vi.waitFor(() => expect(area.getAttribute('aria-invalid')).toBe('true'))
  expect(document.getElementById(area.getAttribute('aria-describedby') ?? '')?.textContent).toBe(
    'Give a reason.',
  )
  expect(document.activeElement).toBe(area)
  expect(document.querySelector('[role=alert]')?.textContent).toContain('Nothing was saved')
  refusal = null
  submit()
  await vi.waitFor(() => expect(area.hasAttribute('aria-invalid')).toBe(false))
  expect(document.querySelector('[role=alert]')).toBeNull()
})
