import { createSignal, For, Show } from 'solid-js'
import type { People } from '#contract/access.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { InvitationForm } from './InvitationForm.tsx'
import { PersonRow } from './PersonRow.tsx'
import './access.css'

/** Who may do what at one's sites, for an administrator. */
export function PeopleSheet(props: { closed: () => void }) {
  const [known, setKnown] = createSignal<People | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ask = async () => {
    try {
      setKnown(await askServer<People>('/api/people'))
    } catch (cause) {
      setTrouble(sentenceOf(cause))
    }
  }
  /** Makes a change and shows what holds afterwards, whether it was taken or not. */
  const change = async (task: () => Promise<void>) => {
    setTrouble(null)
    await task().catch((cause) => setTrouble(sentenceOf(cause)))
    await ask()
  }
  void ask()
  return (
    <dialog
      class="key-sheet people-sheet"
      aria-label="People and roles"
      ref={(dialog) => queueMicrotask(() => dialog.isConnected && dialog.showModal())}
      onClose={() => props.closed()}
    >
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <h2>People and roles</h2>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
      <Show when={known()} fallback={<p>Asking the server …</p>}>
        {(people) => (
          <>
            <ul class="people-list">
              <For each={people().people}>
                {(person) => <PersonRow person={person} sites={people().sites} change={change} />}
              </For>
            </ul>
            <InvitationForm sites={people().sites} />
          </>
        )}
      </Show>
    </dialog>
  )
}
