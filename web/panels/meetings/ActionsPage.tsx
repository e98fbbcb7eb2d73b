import { createMemo } from 'solid-js'
import { openActionsSentence } from '#domain/meeting/minute-sentences.ts'
import { byAttention } from '#domain/meeting/minutes-of-site.ts'
import { minutes, siteToday } from '../../state/meetings.ts'
import { MinutesListed } from './MinutesListed.tsx'

/** Actions of all meetings: the longest overdue first, then open ones by their day, then what is settled. */
export function ActionsPage() {
  const actions = createMemo(() =>
    byAttention(
      (minutes() ?? []).filter(({ kind }) => kind === 'action'),
      siteToday(),
    ),
  )
  return (
    <section class="meeting-part" aria-label="Actions of all meetings">
      <p>{capitalised(openActionsSentence(actions(), siteToday()))}.</p>
      <MinutesListed minutes={actions()} none="No meeting agreed on an action." ofMeetings />
    </section>
  )
}

const capitalised = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1)
