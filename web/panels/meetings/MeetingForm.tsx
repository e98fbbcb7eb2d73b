import { createSignal, Show } from 'solid-js'
import { longestTitle } from '#domain/meeting/board-faults.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { sendServer } from '../../state/ask-server.ts'
import { openMeeting } from '../../state/meeting-work.ts'
import { meetings, takeMeeting } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { announce } from '../../ui/announce.ts'
import { formatInstant, fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { LineField } from '../signed/LineField.tsx'
import { FreezeProgressLine } from './FreezeProgressLine.tsx'
import { firstBoards } from './first-boards.ts'

type Field = 'title' | 'held' | 'cutOff'

const fieldOfColumn: Readonly<Record<string, Field>> = {
  title: 'title',
  heldAtEpochMs: 'held',
  cutOffEpochMs: 'cutOff',
  frozenSet: 'cutOff',
}

/** Makes a meeting: freezes the data as received by an instant, and gives it first boards. */
export function MeetingForm(props: { made: () => void }) {
  const form = createSignedForm((column) => fieldOfColumn[column])
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [title, setTitle] = createSignal('')
  const [held, setHeld] = createSignal(toLocalField(siteNowEpochMs(), zone()))
  const [cutOff, setCutOff] = createSignal(toLocalField(siteNowEpochMs(), zone()))
  // A set that was frozen before the meeting was refused is not frozen a second time.
  const [frozen, setFrozen] = createSignal<FrozenSet | null>(null)
  const cutOffEpochMs = () => fromLocalField(cutOff(), zone())
  const previous = (): Meeting | null =>
    (meetings() ?? [])
      .filter((one) => one.cutOffEpochMs < (cutOffEpochMs() ?? 0))
      .toSorted((one, other) => other.cutOffEpochMs - one.cutOffEpochMs)[0] ?? null
  const make = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const wanted = cutOffEpochMs()
    const known = frozen()
    const set =
      known && known.site === site && known.cutOffEpochMs === wanted
        ? known
        : await sendServer<FrozenSet>(sitePath(site, '/frozen'), { cutOffEpochMs: wanted, author })
    setFrozen(set)
    const meeting = await sendServer<Meeting>(sitePath(site, '/meetings'), {
      title: title(),
      heldAtEpochMs: fromLocalField(held(), zone()),
      frozenSet: set.id,
      boards: firstBoards(site, previous()),
      author,
    })
    takeMeeting(meeting)
    announce(`${meeting.title} is made`)
    props.made()
    openMeeting(meeting.id)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(make)} aria-label="Make a meeting">
      <LineField
        form={form}
        field="title"
        label="Title"
        mostCharacters={longestTitle}
        first
        wide
        value={title()}
        write={setTitle}
      />
      <LineField
        form={form}
        field="held"
        label="Held"
        type="datetime-local"
        hint={`site time, ${zone()}`}
        value={held()}
        write={setHeld}
      />
      <LineField
        form={form}
        field="cutOff"
        label="Data as received by"
        type="datetime-local"
        hint={`site time, ${zone()}`}
        value={cutOff()}
        write={setCutOff}
      />
      <p>
        What a gateway or this server received later is not in it, even where it was read before: the meeting
        sees what was known then. Calibrations, levels and verdicts are taken as they stand now. None of it
        changes afterwards.
      </p>
      <p>
        <Show
          when={previous()}
          fallback="It begins with four boards: where everything stands, levels reached, the network, minutes."
        >
          {(one) => (
            <>
              It begins with the boards of {one().title}; change is counted from its cut-off,{' '}
              {formatInstant(one().cutOffEpochMs, zone())}.
            </>
          )}
        </Show>
      </p>
      <AuthorField form={form} />
      <Show when={form.sending()}>
        <FreezeProgressLine site={siteDocument()?.facts.id ?? ''} />
      </Show>
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          {form.sending() ? 'Freezing the data …' : 'Freeze the data and make it'}
        </button>
      </div>
    </form>
  )
}
