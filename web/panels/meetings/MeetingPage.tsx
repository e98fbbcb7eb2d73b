import { createMemo, createSignal, Show, untrack } from 'solid-js'
import { byAttention } from '#domain/meeting/minutes-of-site.ts'
import { openMeeting } from '../../state/meeting-work.ts'
import { meetings, minutes, siteToday } from '../../state/meetings.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { RecordHistory } from '../audit/RecordHistory.tsx'
import { BoardsOf } from './BoardsOf.tsx'
import { FrozenState } from './FrozenState.tsx'
import { MinuteForm } from './MinuteForm.tsx'
import { MinutesListed } from './MinutesListed.tsx'

/** One meeting: its data, its boards, and what it wrote down. */
export function MeetingPage(props: { id: number }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const meeting = createMemo(() => meetings()?.find(({ id }) => id === props.id) ?? null)
  const before = () => meetings()?.find(({ id }) => id === meeting()?.previous) ?? null
  const own = createMemo(() =>
    byAttention(
      (minutes() ?? []).filter((minute) => minute.meeting === props.id),
      siteToday(),
    ),
  )
  // A meeting that nothing was written in is one that is being prepared.
  const [part, setPart] = createSignal<'boards' | 'minutes'>(untrack(own).length === 0 ? 'boards' : 'minutes')
  return (
    <Show when={meeting()}>
      {(shown) => (
        <article class="meeting-page" aria-label={shown().title}>
          <h2>{shown().title}</h2>
          <dl class="facts">
            <div>
              <dt>Held</dt>
              <dd>{formatInstant(shown().heldAtEpochMs, zone())}</dd>
            </div>
            <div>
              <dt>Data as received by</dt>
              <dd>{formatInstant(shown().cutOffEpochMs, zone())}</dd>
            </div>
            <div>
              <dt>Change counted from</dt>
              <dd>
                <Show when={before()} fallback="no earlier meeting">
                  {(one) => (
                    <>
                      <button type="button" onClick={() => openMeeting(one().id)}>
                        {one().title}
                      </button>{' '}
                      {formatInstant(one().cutOffEpochMs, zone())}
                    </>
                  )}
                </Show>
              </dd>
            </div>
            <div>
              <dt>Made by</dt>
              <dd>
                {shown().author}, {formatInstant(shown().atEpochMs, zone())}
              </dd>
            </div>
          </dl>
          <FrozenState meeting={shown()} />
          <nav class="meetings-pages" aria-label="Parts of the meeting">
            <button
              type="button"
              aria-current={part() === 'minutes' ? 'page' : undefined}
              onClick={() => setPart('minutes')}
            >
              Minutes and actions, {own().length}
            </button>
            <button
              type="button"
              aria-current={part() === 'boards' ? 'page' : undefined}
              onClick={() => setPart('boards')}
            >
              Boards, {shown().boards.length}
            </button>
          </nav>
          <Show when={part() === 'minutes'} fallback={<BoardsOf meeting={shown()} />}>
            <section class="meeting-part" aria-label="Minutes and actions">
              <MinutesListed minutes={own()} none="Nothing was written down in this meeting yet." />
              <MinuteForm meeting={shown()} />
            </section>
          </Show>
          <RecordHistory of="this meeting" records={[{ kind: 'meetings', keys: [String(shown().id)] }]} />
        </article>
      )}
    </Show>
  )
}
