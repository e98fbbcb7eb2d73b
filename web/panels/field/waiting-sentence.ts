import type { RefusedWork } from '../../derived/not-taken.ts'
import type { WaitingWork } from '../../state/field-work.ts'

/** What waits on this device, in words: entries, files, what the server would not take, other sites' work. */
export function waitingSentence({ entries, files, stuck, elsewhere }: WaitingWork): string {
  const onTheWay = [
    entries > 0 ? counted(entries, 'entry', 'entries') : '',
    files > 0 ? counted(files, 'photo or file', 'photos and files') : '',
  ].filter((one) => one !== '')
  return [
    onTheWay.length > 0 ? `${onTheWay.join(' and ')} not yet confirmed by the server.` : '',
    stuck > 0 ? `${counted(stuck, 'needs', 'need')} a decision: look into the Outbox.` : '',
    elsewhere > 0
      ? `${counted(elsewhere, 'entry', 'entries')} of another site ${elsewhere === 1 ? 'waits' : 'wait'} until that site is opened.`
      : '',
    entries + files + stuck + elsewhere === 0 ? 'Nothing waits on this device.' : '',
  ]
    .filter((one) => one !== '')
    .join(' ')
}

/** What the server refused, in words; null: nothing. */
export function refusedSentence({ readings, others }: RefusedWork): string | null {
  if (readings + others === 0) return null
  const what = [
    readings > 0 ? counted(readings, 'reading', 'readings') : '',
    others > 0
      ? readings > 0
        ? counted(others, 'other entry', 'other entries')
        : counted(others, 'entry', 'entries')
      : '',
  ].filter((one) => one !== '')
  const were = readings + others === 1 ? 'was' : 'were'
  return `${what.join(' and ')} ${were} not taken by the server: look into the Outbox.`
}

const counted = (count: number, one: string, several: string) => `${count} ${count === 1 ? one : several}`
