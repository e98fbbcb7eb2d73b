import { For, Show } from 'solid-js'
import type { People } from '#contract/access.ts'
import { askServer } from '../../state/ask-server.ts'
import { createChanged } from './create-changed.ts'
import { InvitationForm } from './InvitationForm.tsx'
import { ModalSheet } from './ModalSheet.tsx'
import { PersonRow } from './PersonRow.tsx'

/** Who may do what at one's sites, for an administrator. */
export function PeopleSheet(props: { closed: () => void }) {
  const { known, troubles, change } = createChanged(() => askServer<People>('/api/people'))
  return (
    <ModalSheet name="People and roles" troubles={troubles()} closed={props.closed}>
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
    </ModalSheet>
  )
}
