import { createSignal } from 'solid-js'
import type { MeetingList, MinuteList } from '#contract/meetings.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import type { Minute } from '#domain/meeting/minute.ts'
import { siteDay } from '#domain/meeting/site-day.ts'
import { askServerWithin, sentenceOf } from './ask-server.ts'
import { sitePath, statesWithinMs } from './open-site.ts'
import { siteDocument } from './site-document.ts'
import { movingSiteNowEpochMs } from './site-now.ts'

interface Heard {
  readonly site: string
  readonly meetings: readonly Meeting[]
  readonly minutes: readonly Minute[]
}

const [heard, setHeard] = createSignal<Heard | null>(null)
const [trouble, setTrouble] = createSignal<{ readonly site: string; readonly sentence: string } | null>(null)

const openSite = (): string => siteDocument()?.facts.id ?? ''
const known = (): Heard | null => (heard()?.site === openSite() ? heard() : null)

/** Meetings of the open site, the last one held first; null: not known here. */
export const meetings = (): readonly Meeting[] | null => known()?.meetings ?? null

/** What meetings of the open site wrote down; null: not known here. */
export const minutes = (): readonly Minute[] | null => known()?.minutes ?? null

/** Why what is shown may be of before, or is not known at all; null: the server answered. */
export const meetingsTrouble = (): string | null => {
  const told = trouble()
  return told?.site === openSite() ? told.sentence : null
}

/** The day at the open site, by which actions are overdue. */
export const siteToday = (): string =>
  siteDay(movingSiteNowEpochMs(), siteDocument()?.facts.timeZone ?? 'UTC')

/** Asks for meetings and minutes. A failure leaves what was known, and is told beside it. */
export async function refreshMeetings(site: string): Promise<void> {
  try {
    const [{ meetings: list }, { minutes: written }] = await Promise.all([
      askServerWithin<MeetingList>(sitePath(site, '/meetings'), statesWithinMs),
      askServerWithin<MinuteList>(sitePath(site, '/minutes'), statesWithinMs),
    ])
    setHeard({ site, meetings: list, minutes: written })
    setTrouble(null)
  } catch (cause) {
    setTrouble({ site, sentence: sentenceOf(cause) })
  }
}

/** Takes a meeting as the server has just answered it. */
export function takeMeeting(meeting: Meeting): void {
  setHeard((before) => {
    if (before?.site !== meeting.site) return before
    const others = before.meetings.filter(({ id }) => id !== meeting.id)
    const all = [...others, meeting].toSorted(
      (one, other) => other.heldAtEpochMs - one.heldAtEpochMs || other.id - one.id,
    )
    return { ...before, meetings: all }
  })
}

/** Takes a minute as the server has just answered it. */
export function takeMinute(minute: Minute): void {
  setHeard((before) =>
    before?.site === minute.site
      ? { ...before, minutes: [...before.minutes.filter(({ id }) => id !== minute.id), minute] }
      : before,
  )
}
