import type { MeetingList } from '#contract/meetings.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { askServer, isSignInNeeded, sentenceOf } from '../../state/ask-server.ts'
import { readFromFrozen, showFrozenSet } from '../../state/frozen.ts'
import { goToPlace, reportMeetingTrouble, showMeeting } from '../../state/meeting.ts'
import type { WallAddress } from '../../state/on-wall.ts'
import { firstSite, frozenPath } from '../../state/open-frozen.ts'
import { openSite, sitePath } from '../../state/open-site.ts'

/** Opens a meeting on the wall: its record, then its frozen set, then the site as that has it, and nothing besides. */
export async function openMeeting({
  site: wanted,
  meeting: number,
  board,
  page,
}: WallAddress): Promise<void> {
  try {
    const site = wanted ?? (await firstSite())
    if (site === null) return
    const { meetings } = await askServer<MeetingList>(sitePath(site, '/meetings'))
    const found = meetings.find(({ id }) => id === number)
    if (!found) {
      reportMeetingTrouble(`There is no meeting ${number} at this site. The desk lists those there are.`)
      return
    }
    if (found.frozenSet === null) {
      reportMeetingTrouble(
        `The data of “${found.title}” were not frozen yet: nothing is shown as if they were. Freeze them at the desk, under Meetings.`,
      )
      return
    }
    readFromFrozen(found.frozenSet)
    showFrozenSet(await askServer<FrozenSet>(frozenPath(site, found.frozenSet)))
    showMeeting(found, meetings.find(({ id }) => id === found.previous) ?? null)
    goToPlace({ board, page })
    await openSite(site)
  } catch (cause) {
    if (!isSignInNeeded(cause)) reportMeetingTrouble(`The meeting could not be opened: ${sentenceOf(cause)}`)
  }
}
