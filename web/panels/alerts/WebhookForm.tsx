import { createUniqueId, For } from 'solid-js'
import type { GivenSecret } from '#contract/alert-delivery.ts'
import { alertKinds } from '#domain/alerts/alert-kinds.ts'
import { signingSchemes } from '#domain/alerts/webhook.ts'
import { sendServer } from '../../state/ask-server.ts'
import { createFaults } from '../create-faults.tsx'
import { alertKindWords, signingWords } from './alert-kind-words.ts'

const fields = ['name', 'url', 'kinds', 'scheme'] as const

/** Makes a webhook of a site; its secret is handed on, to be shown once. */
export function WebhookForm(props: { path: string; made: (secret: GivenSecret) => void }) {
  const form = createUniqueId()
  const faults = createFaults<(typeof fields)[number]>(
    form,
    (column) => fields.find((field) => String(column ?? '').split('.')[0] === field) ?? null,
  )
  const send = async (event: SubmitEvent) => {
    event.preventDefault()
    const element = event.currentTarget as HTMLFormElement
    const said = new FormData(element)
    faults.clear()
    try {
      props.made(
        await sendServer<GivenSecret>(props.path, {
          name: said.get('name'),
          url: said.get('url'),
          kinds: said.getAll('kinds'),
          scheme: said.get('scheme'),
        }),
      )
      element.reset()
    } catch (cause) {
      faults.take(cause)
    }
  }
  return (
    <form class="access-form webhook-form" onSubmit={send} noValidate>
      <h4>Add a webhook</h4>
      {faults.summary()}
      <label>
        Name, by which people know the receiver
        <input id={`${form}-name`} name="name" autocomplete="off" {...faults.troubled('name')} />
      </label>
      {faults.textAt('name')}
      <label>
        Address, which begins with https://
        <input
          id={`${form}-url`}
          name="url"
          type="url"
          inputmode="url"
          autocomplete="off"
          {...faults.troubled('url')}
        />
      </label>
      {faults.textAt('url')}
      <fieldset id={`${form}-kinds`} {...faults.troubled('kinds')}>
        <legend>What it is told of</legend>
        <For each={alertKinds}>
          {(kind) => (
            <label class="choice">
              <input type="checkbox" name="kinds" value={kind} checked /> {alertKindWords[kind]}
            </label>
          )}
        </For>
      </fieldset>
      {faults.textAt('kinds')}
      <label>
        How the receiver checks that a message is from here
        <select id={`${form}-scheme`} name="scheme" {...faults.troubled('scheme')}>
          <For each={signingSchemes}>
            {(scheme) => <option value={scheme}>{signingWords[scheme]}</option>}
          </For>
        </select>
      </label>
      {faults.textAt('scheme')}
      <button type="submit">Add it</button>
    </form>
  )
}
