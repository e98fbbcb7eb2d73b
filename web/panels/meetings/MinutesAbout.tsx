import { createMemo, Show } from 'solid-js'
import { openActionsSentence } from '#domain/meeting/minute-sentences.ts'
import { byAttention } from '#domain/meeting/minutes-of-site.ts'
import { meetingsTrouble, minutes, refreshMeetings, siteToday } from '../../state/meetings.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'
import { MinutesListed } from './MinutesListed.tsx'
import './meetings.css'

/** What meetings wrote down about the selected instrument and its points: what is overdue and open first. */
export function MinutesAbout() {
  sync(
    () => siteDocument()?.facts.id,
    (site) => {
      if (site && minutes() === null) void refreshMeetings(site)
    },
  )
  const about = createMemo(() => {
    const instrument = selectedInstrument()
    const places = new Set(instrument ? [instrument.id, ...instrument.points] : [])
    return byAttention(
      (minutes() ?? []).filter((minute) => minute.places.some((place) => places.has(place))),
      siteToday(),
    )
  })
  return (
    <section class="meeting-part minutes-about" aria-label="From meetings">
      <h3>From meetings</h3>
      <Show
        when={minutes() !== null}
        fallback={
          <p class="waiting">
            {meetingsTrouble() === null
              ? 'Fetching what meetings wrote down …'
              : `What meetings wrote down about it is not known. ${meetingsTrouble()}`}
          </p>
        }
      >
        <Show when={about().some(({ kind }) => kind === 'action')}>
          <p>{openActionsSentence(about(), siteToday())}</p>
        </Show>
        <MinutesListed minutes={about()} none="No meeting wrote anything down about it." ofMeetings />
      </Show>
    </section>
  )
}
