import { createSignal, For } from 'solid-js'
import { longestNote } from '#domain/meeting/draft-minute.ts'
import type { ActionStanding, Minute } from '#domain/meeting/minute.ts'
import { standingOf } from '#domain/meeting/minutes-of-site.ts'
import { sendServer } from '../../state/ask-server.ts'
import { takeMinute } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { announce } from '../../ui/announce.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { WordsField } from '../signed/WordsField.tsx'

/** Says how an action stands since: done, given up, or open after all, and why. */
export function ActionEntryForm(props: { minute: Minute; leave: () => void }) {
  const form = createSignedForm<'standing' | 'note'>((column) =>
    column === 'note' || column === 'standing' ? column : null,
  )
  const wasOpen = standingOf(props.minute) === 'open'
  const [standing, setStanding] = createSignal<ActionStanding>(wasOpen ? 'done' : 'open')
  const [note, setNote] = createSignal('')
  const words: Readonly<Record<ActionStanding, string>> = {
    done: 'it is done',
    dropped: 'it is given up',
    open: wasOpen ? 'it is still open' : 'it is open again',
  }
  const save = async (author: string) => {
    const { site, id } = props.minute
    const said = { standing: standing(), note: note(), author }
    takeMinute(await sendServer<Minute>(sitePath(site, `/minutes/${id}/entries`), said))
    announce('What was said of the action is saved')
    props.leave()
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="How the action stands">
      <fieldset id={form.idOf('standing')} tabindex="-1">
        <legend>How it stands</legend>
        <div class="verdict-words">
          <For each={['done', 'dropped', 'open'] as const}>
            {(one) => (
              <label>
                <input
                  type="radio"
                  name={form.idOf('standing')}
                  checked={standing() === one}
                  onInput={() => setStanding(one)}
                />
                {words[one]}
              </label>
            )}
          </For>
        </div>
        {form.faults.textAt('standing')}
      </fieldset>
      <WordsField
        form={form}
        field="note"
        label={standing() === 'dropped' ? 'Why' : 'What was done or found'}
        hint="kept for good; the client reads it too"
        wide
        first
        mostCharacters={longestNote}
        value={note()}
        write={setNote}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          Save
        </button>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}
