import { assert } from '../assert.ts'
import type { SiteModel } from '../site/site.ts'
import type { BoardRow } from '../site/tables.ts'
import type { Board, Meeting } from './meeting.ts'

/** Meetings of a site with their latest boards, the last one held first. */
export function meetingsOfSite(model: Pick<SiteModel, 'facts' | 'meetings' | 'boards'>): readonly Meeting[] {
  return model.meetings
    .map((row): Meeting => {
      const { version, boards } = latestBoards(model.boards, row.id)
      return {
        id: row.id,
        site: model.facts.id,
        title: row.title,
        heldAtEpochMs: row.heldAt,
        frozenSet: row.frozenSet ?? null,
        cutOffEpochMs: row.cutOffAt,
        previous: row.previous,
        boards,
        version,
        author: row.author,
        atEpochMs: row.at,
      }
    })
    .toSorted((one, other) => other.heldAtEpochMs - one.heldAtEpochMs || other.id - one.id)
}

/** The boards of a meeting that were saved last, in order, with their version and who saved them. */
export function latestBoards(
  rows: readonly BoardRow[],
  meeting: number,
): { readonly version: number; readonly author: string; readonly boards: readonly Board[] } {
  const own = rows.filter((row) => row.meeting === meeting)
  const version = Math.max(...own.map((row) => row.version))
  const latest = own
    .filter((row) => row.version === version)
    .toSorted((one, other) => one.board - other.board)
  const [first] = latest
  assert(first !== undefined, `meeting ${meeting} has boards`)
  return {
    version,
    author: first.author,
    boards: latest.map(({ kind, title, address, seconds }) => ({ kind, title, address, seconds })),
  }
}
