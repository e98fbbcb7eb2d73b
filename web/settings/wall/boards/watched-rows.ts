import { silentWatched, silentWatchedWords, type WatchedStanding } from '#domain/alerts/silent-watched.ts'
import type { BoardRow } from './RowPages.tsx'

/** Channels that a level watches, counted as everywhere; clients are told the same. `document` null: not known. */
export function watchedRows(document: WatchedStanding | null): readonly BoardRow[] {
  const heading = { heading: 'Watched channels without a current value', cells: [] }
  if (document === null)
    return [heading, { cells: ['not known', '', 'What levels watch at the cut-off is not known here.'] }]
  const counted = silentWatched(document)
  return [
    heading,
    {
      cells: [
        counted.silent === 0 ? 'none' : String(counted.silent),
        '',
        counted.watched === 0
          ? 'No channel has a level in force: no alert can come of any.'
          : `At the cut-off ${silentWatchedWords(counted)}${counted.silent === 0 ? '' : ': no alert can come of them'}.`,
      ],
      presses: counted.silent > 0,
    },
  ]
}
