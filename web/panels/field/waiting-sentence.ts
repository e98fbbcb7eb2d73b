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

const counted = (count: number, one: string, several: string) => `${count} ${count === 1 ? one : several}`
