import type { MeetingList } from '#contract/meetings.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { sampleAddress } from './sample-page.ts'

/** The sample's meetings with their data frozen, earliest first; one that is frozen already stays what it is. */
export async function frozenMeetings(): Promise<readonly Meeting[]> {
  const path = `${sampleAddress()}/api/sites/skarrow-quay/meetings`
  const list = async () => ((await (await fetch(path)).json()) as MeetingList).meetings
  for (const meeting of await list()) {
    if (meeting.frozenSet !== null) continue
    const answer = await fetch(`${path}/${meeting.id}/freeze`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: sampleAddress() },
      body: JSON.stringify({ author: 'A. Tester' }),
    })
    if (!answer.ok) throw new Error(`meeting ${meeting.id} was not frozen: ${await answer.text()}`)
  }
  return (await list()).toSorted((one, other) => one.cutOffEpochMs - other.cutOffEpochMs)
}
