import { createSignal, For, Show } from 'solid-js'
import type { Minute } from '#domain/meeting/minute.ts'
import { standingSentence } from '#domain/meeting/minute-sentences.ts'
import { isOverdue, standingOf } from '#domain/meeting/minutes-of-site.ts'
import { openMeeting } from '../../state/meeting-work.ts'
import { meetings, siteToday } from '../../state/meetings.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { selectInstrument, selectPoint } from '../../state/selection.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { ActionEntryForm } from './ActionEntryForm.tsx'

/** Statements and actions with what they are about, how they stand, and what was said of them since. */
export function MinutesListed(props: {
  minutes: readonly Minute[]
  none: string
  /** Each says of which meeting it is. */
  ofMeetings?: boolean
}) {
  return (
    <Show when={props.minutes.length > 0} fallback={<p>{props.none}</p>}>
      <ul class="minutes-list">
        <For each={props.minutes}>
          {(minute) => <MinuteShown minute={minute} ofMeeting={props.ofMeetings ?? false} />}
        </For>
      </ul>
    </Show>
  )
}

function MinuteShown(props: { minute: Minute; ofMeeting: boolean }) {
  const [saying, setSaying] = createSignal(false)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const standing = () => standingOf(props.minute)
  const maySay = () => standing() !== null && hindranceTo('add') === null
  const meeting = () => meetings()?.find(({ id }) => id === props.minute.meeting) ?? null
  return (
    <li classList={{ settled: standing() === 'done' || standing() === 'dropped' }}>
      <p class="minute-text">{props.minute.text}</p>
      <p class="minute-facts">
        <Show when={standing()} fallback="Note">
          <strong classList={{ overdue: isOverdue(props.minute, siteToday()) }}>
            {standingSentence(props.minute, siteToday())}
          </strong>
          {' · '}
          {props.minute.owner}
        </Show>
        <Show when={props.minute.places.length === 0}> · about the site</Show>
        <Show when={props.ofMeeting && meeting()}>
          {(held) => <> · meeting of {formatInstant(held().heldAtEpochMs, zone())}</>}
        </Show>
      </p>
      <For each={props.minute.entries}>
        {(entry) => (
          <p class="minute-entry">
            {formatInstant(entry.atEpochMs, zone())}, {entry.author}, {entry.standing}: {entry.note}
          </p>
        )}
      </For>
      <div class="minute-places">
        <For each={props.minute.places}>
          {(place) => (
            <button type="button" aria-label={`Show the record of ${place}`} onClick={() => showPlace(place)}>
              {place}
            </button>
          )}
        </For>
        <Show when={props.ofMeeting && meeting()}>
          {(held) => (
            <button
              type="button"
              onClick={() => {
                openMeeting(held().id)
                openSheet('meetings')
              }}
            >
              {held().title}
            </button>
          )}
        </Show>
        <Show when={maySay() && !saying()}>
          <button type="button" onClick={() => setSaying(true)}>
            {standing() === 'open' ? 'Say what became of it …' : 'Say more …'}
          </button>
        </Show>
      </div>
      <Show when={maySay() && saying()}>
        <ActionEntryForm minute={props.minute} leave={() => setSaying(false)} />
      </Show>
    </li>
  )
}

function showPlace(place: string): void {
  if (siteLookup().instrumentById.has(place)) selectInstrument(place)
  else selectPoint(place)
  openSheet('record')
}
