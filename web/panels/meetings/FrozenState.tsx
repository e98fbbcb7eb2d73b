import { createSignal, Match, Show, Switch } from 'solid-js'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { askServer, sendServer, sentenceOf } from '../../state/ask-server.ts'
import { takeMeeting } from '../../state/meetings.ts'
import { sitePath } from '../../state/open-site.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { sync } from '../../ui/sync.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { FreezeProgressLine } from './FreezeProgressLine.tsx'

/** Whether the data of a meeting are frozen, how many of them nobody stands for, and the way onto the wall. */
export function FrozenState(props: { meeting: Meeting }) {
  const [set, setSet] = createSignal<FrozenSet | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<FrozenSet>(path, signal))
  sync(
    () => props.meeting.frozenSet,
    (id) => {
      setSet(null)
      setTrouble(null)
      if (id === null) return
      ask(sitePath(props.meeting.site, `/frozen/${id}`)).then(
        (known) => known && setSet(known),
        (cause) => setTrouble(sentenceOf(cause)),
      )
    },
  )
  return (
    <section class="meeting-part" aria-label="Frozen data">
      <Switch>
        <Match when={props.meeting.frozenSet === null}>
          <p>
            Its data are not frozen yet, so nothing of it is shown on the wall. Freezing copies apart what had
            been received by the cut-off; calibrations, levels and verdicts are taken as they stand now.
          </p>
          <Show when={hindranceTo('change-records') === null}>
            <FreezeForm meeting={props.meeting} />
          </Show>
        </Match>
        <Match when={props.meeting.frozenSet !== null}>
          <Show when={set()} fallback={<p class="waiting">{trouble() ?? 'Fetching what was frozen …'}</p>}>
            {(known) => (
              <p>
                Frozen {formatInstant(known().frozenAtEpochMs, zone())} by {known().frozenBy}:{' '}
                {readingsSentence(known().readings)} What arrives or is corrected later does not reach its
                boards.
              </p>
            )}
          </Show>
          <p class="buttons">
            <a class="meeting-wall" href={wallAddress(props.meeting, 1)}>
              Open on the wall
            </a>
          </p>
        </Match>
      </Switch>
    </section>
  )
}

function FreezeForm(props: { meeting: Meeting }) {
  const form = createSignedForm(() => null)
  const freeze = async (author: string) => {
    const { site, id, title } = props.meeting
    takeMeeting(await sendServer<Meeting>(sitePath(site, `/meetings/${id}/freeze`), { author }))
    announce(`The data of ${title} are frozen`)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(freeze)} aria-label="Freeze its data">
      <AuthorField form={form} />
      <Show when={form.sending()}>
        <FreezeProgressLine site={props.meeting.site} />
      </Show>
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          {form.sending() ? 'Freezing …' : 'Freeze its data'}
        </button>
      </div>
    </form>
  )
}

/** Address at which a board of a meeting stands on the wall; boards are counted from 1. */
export const wallAddress = ({ site, id }: Pick<Meeting, 'site' | 'id'>, board: number): string =>
  `?${new URLSearchParams({ site, meeting: String(id), board: String(board) })}`

function readingsSentence({ all, provisional }: FrozenSet['readings']): string {
  if (all === 0) return 'no readings.'
  const share = Math.round((100 * provisional) / all)
  const told =
    share === 0 && provisional > 0 ? 'less than 1' : share === 100 && provisional < all ? 'over 99' : share
  return `${all.toLocaleString('en-GB')} readings, ${told} % of them provisional.`
}
