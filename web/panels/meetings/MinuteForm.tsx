import { createSignal, For, Show } from 'solid-js'
import { longestOwner, longestText } from '#domain/meeting/draft-minute.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import type { Minute } from '#domain/meeting/minute.ts'
import { sendServer } from '../../state/ask-server.ts'
import { minuteWorkOf, workOnMinute } from '../../state/meeting-work.ts'
import { minutes, takeMinute } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { announce } from '../../ui/announce.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { LineField } from '../signed/LineField.tsx'
import { WordsField } from '../signed/WordsField.tsx'
import { PlacesField } from './PlacesField.tsx'

type Field = 'kind' | 'text' | 'places' | 'owner' | 'dueOn'
const fields: readonly string[] = ['kind', 'text', 'places', 'owner', 'dueOn'] satisfies Field[]

/** Writes down what a meeting said or agreed on. What was begun stays until it is saved. */
export function MinuteForm(props: { meeting: Meeting }) {
  const [writing, setWriting] = createSignal(minuteWorkOf(props.meeting.id).text !== '')
  return (
    <Show when={hindranceTo('add') === null}>
      <Show
        when={writing()}
        fallback={
          <div class="buttons">
            <button type="button" onClick={() => setWriting(true)}>
              Write something down …
            </button>
          </div>
        }
      >
        <Form meeting={props.meeting} leave={() => setWriting(false)} />
      </Show>
    </Show>
  )
}

function Form(props: { meeting: Meeting; leave: () => void }) {
  const form = createSignedForm((column) => (fields.includes(column) ? (column as Field) : null))
  const work = () => minuteWorkOf(props.meeting.id)
  const write = (some: Parameters<typeof workOnMinute>[1]) => workOnMinute(props.meeting.id, some)
  const isAction = () => work().kind === 'action'
  const owners = () => [...new Set((minutes() ?? []).flatMap(({ owner }) => owner ?? []))].toSorted()
  const save = async (author: string) => {
    const { kind, text, places, owner, dueOn } = work()
    const draft = {
      kind,
      text,
      places,
      owner: kind === 'action' ? owner : null,
      dueOn: kind === 'action' ? dueOn : null,
      author,
    }
    const { site, id } = props.meeting
    takeMinute(await sendServer<Minute>(sitePath(site, `/meetings/${id}/minutes`), draft))
    write(null)
    announce(kind === 'action' ? 'The action is saved' : 'The note is saved')
    props.leave()
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="Write down">
      <fieldset id={form.idOf('kind')} tabindex="-1">
        <legend>What it is</legend>
        <div class="verdict-words">
          <For each={['action', 'note'] as const}>
            {(kind) => (
              <label>
                <input
                  type="radio"
                  name={form.idOf('kind')}
                  checked={work().kind === kind}
                  onInput={() => write({ kind })}
                />
                {kind === 'action' ? 'an action: somebody does it' : 'a note'}
              </label>
            )}
          </For>
        </div>
        {form.faults.textAt('kind')}
      </fieldset>
      <WordsField
        form={form}
        field="text"
        label={isAction() ? 'What is to be done' : 'What was said'}
        hint="kept for good; the client reads it too, names and all"
        wide
        first
        mostCharacters={longestText}
        value={work().text}
        write={(text) => write({ text })}
      />
      <PlacesField form={form} places={work().places} write={(places) => write({ places })} />
      <Show when={isAction()}>
        <LineField
          form={form}
          field="owner"
          label="Who does it"
          hint="a role or a name"
          mostCharacters={longestOwner}
          list={form.idOf('names')}
          value={work().owner}
          write={(owner) => write({ owner })}
        >
          <datalist id={form.idOf('names')}>
            <For each={owners()}>{(one) => <option value={one} />}</For>
          </datalist>
        </LineField>
        <LineField
          form={form}
          field="dueOn"
          label="By which day"
          type="date"
          value={work().dueOn}
          write={(dueOn) => write({ dueOn })}
        />
      </Show>
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          {isAction() ? 'Save the action' : 'Save the note'}
        </button>
        <button
          type="button"
          onClick={() => {
            write(null)
            props.leave()
          }}
        >
          Leave it
        </button>
      </div>
    </form>
  )
}
