import { For, Show } from 'solid-js'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { openActionsSentence } from '#domain/meeting/minute-sentences.ts'
import { isOverdue } from '#domain/meeting/minutes-of-site.ts'
import { openMeeting } from '../../state/meeting-work.ts'
import { meetings, minutes, siteToday } from '../../state/meetings.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'

/** Every meeting, the last one held first, with its cut-off, whether its data are frozen, and what is still open. */
export function MeetingsListed() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <Show
      when={(meetings() ?? []).length > 0}
      fallback={
        <p>
          No meeting is on record. A meeting freezes the data as received by an instant, so that everybody
          speaks of the same ones, and holds its boards, minutes and actions.
        </p>
      }
    >
      <ul class="meetings-list">
        <For each={meetings()}>{(meeting) => <Listed meeting={meeting} zone={zone()} />}</For>
      </ul>
    </Show>
  )
}

function Listed(props: { meeting: Meeting; zone: string }) {
  const own = () => (minutes() ?? []).filter(({ meeting }) => meeting === props.meeting.id)
  const isSomeOverdue = () => own().some((minute) => isOverdue(minute, siteToday()))
  return (
    <li>
      <button type="button" class="meeting-name" onClick={() => openMeeting(props.meeting.id)}>
        {props.meeting.title}
      </button>
      <dl class="facts">
        <div>
          <dt>Held</dt>
          <dd>{formatInstant(props.meeting.heldAtEpochMs, props.zone)}</dd>
        </div>
        <div>
          <dt>Data as received by</dt>
          <dd>
            {formatInstant(props.meeting.cutOffEpochMs, props.zone)},{' '}
            {props.meeting.frozenSet === null ? 'not frozen yet' : 'frozen'}
          </dd>
        </div>
        <div>
          <dt>Boards</dt>
          <dd>{props.meeting.boards.length}</dd>
        </div>
        <div>
          <dt>Actions</dt>
          <dd>
            <span classList={{ overdue: isSomeOverdue() }}>{openActionsSentence(own(), siteToday())}</span>
          </dd>
        </div>
      </dl>
    </li>
  )
}
