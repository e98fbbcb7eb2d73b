import { describe, expect, it, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = {
  'meetings.csv': 'id,title,heldAt,cutOffAt,previous,author,at',
  'boards.csv': 'meeting,version,board,kind,title,address,seconds,author,at',
  'minutes.csv': 'id,meeting,kind,text,places,owner,dueOn,author,at',
  'action-entries.csv': 'minute,entry,standing,note,author,at',
}
const at = '2027-09-27T18:30:00Z'
const sound = {
  'meetings.csv': `1,First,2027-08-31T10:00:00Z,2027-08-30T18:00:00Z,,A. Reed,${at}\n2,"=Second, with commas",2027-09-28T10:00:00Z,2027-09-27T18:00:00Z,1,A. Reed,${at}`,
  'boards.csv': `1,1,1,plan,The site,site=small-quay,20,A. Reed,${at}\n2,1,1,plan,The site,site=small-quay&find=%3D1%2B1,20,A. Reed,${at}\n2,2,1,history,Pressure,site=small-quay&selected=instrument%3APZ-1,30,A. Reed,${at}`,
  'minutes.csv': `1,2,note,"Two lines\nof it",,,,A. Reed,${at}\n2,2,action,Look at it,PZ-1;ST-1A,A. Reed,2027-09-28,A. Reed,${at}`,
  'action-entries.csv': `2,1,done,Looked at,A. Reed,${at}`,
}

function read(changed: Partial<typeof sound>) {
  const files = smallSite()
  for (const [file, rows] of Object.entries({ ...sound, ...changed }))
    files.set(file, `${headings[file as keyof typeof headings]}\n${rows}\n`)
  return readSite(files)
}

describe('meetings of a folder', () => {
  it('are read, and written out again', () => {
    const outcome = read({})
    if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
    expect(outcome.value.meetings.map(({ previous }) => previous)).toEqual([null, 1])
    expect(outcome.value.boards).toHaveLength(3)
    const written = writeSite(outcome.value)
    expect(written.get('meetings.csv')).toContain(`"'=Second, with commas"`)
    expect(readSite(written)).toEqual(outcome)
  })

  it('may name the set that a server froze, and may be left out', () => {
    const outcome = read({})
    if (!outcome.ok) throw new Error('sound')
    const [first, ...rest] = outcome.value.meetings
    if (!first) throw new Error('two meetings')
    const frozen = { ...outcome.value, meetings: [{ ...first, frozenSet: 'a'.repeat(16) }, ...rest] }
    const again = readSite(writeSite(frozen))
    expect(again.ok && again.value.meetings.map(({ frozenSet }) => frozenSet)).toEqual(['a'.repeat(16), null])
    const none = readSite(smallSite())
    expect(none.ok && [none.value.meetings, none.value.actionEntries]).toEqual([[], []])
  })
})

const board = (meeting: number, address: string) => `${meeting},1,1,plan,The site,${address},20,A. Reed,${at}`
const minute = (cells: string) => `1,2,${cells},A. Reed,${at}`

test.each([
  ['meetings.csv', `3,Third,${at},${at},3,A. Reed,${at}`, 'previous-not-earlier', 'previous'],
  ['meetings.csv', `3,Third,${at},${at},9,A. Reed,${at}`, 'meeting-unknown', 'previous'],
  ['meetings.csv', `3,Third,${at},${at},,A. Reed,${at}`, 'boards-expected', 'id'],
  ['boards.csv', board(9, 'site=small-quay'), 'meeting-unknown', 'meeting'],
  ['boards.csv', board(1, 'https://elsewhere.example/?site=small-quay'), 'board-address-refused', 'address'],
  ['boards.csv', board(1, 'site=other-quay'), 'board-address-refused', 'address'],
  ['minutes.csv', minute('note,Said,PZ-9,,'), 'place-unknown', 'places'],
  ['minutes.csv', minute('note,Said,,A. Reed,'), 'note-with-owner', 'owner'],
  ['minutes.csv', minute('action,Do,,A. Reed,2027-09-27'), 'due-before-meeting', 'dueOn'],
  ['minutes.csv', minute('action,Do,,,2027-09-28'), 'owner-missing', 'owner'],
  ['action-entries.csv', `1,1,done,Said,A. Reed,${at}`, 'not-an-action', 'minute'],
  ['action-entries.csv', `7,1,done,Said,A. Reed,${at}`, 'minute-unknown', 'minute'],
] as const)('%s with %s: %s', (file, row, code, column) => {
  const outcome = read({ [file]: `${file === 'minutes.csv' ? '' : `${sound[file]}\n`}${row}` })
  const found = outcome.ok ? [] : outcome.issues.filter((issue) => issue.file === file)
  expect(found.map((issue) => [issue.code, issue.column])).toContainEqual([code, column])
})
