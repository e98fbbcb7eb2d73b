import type { Board, Meeting } from '#domain/meeting/meeting.ts'
import { writeAddress } from '../../state/address.ts'
import { emptyAddress } from '../../state/address-state.ts'
import { firstLayers } from '../../state/plan-layers.ts'
import { boardAddress, usualSeconds } from './guess-board.ts'

/**
 * Boards with which a new meeting begins: those of the meeting before it, at the new cut-off and counting their change
 * from the one before; without one, where everything stands, what was reached, the network and what is open.
 */
export function firstBoards(site: string, previous: Meeting | null): readonly Board[] {
  if (previous) return previous.boards.map((board) => atNewCutOff(site, board, previous))
  const board = (kind: Board['kind'], title: string, some: Partial<typeof emptyAddress>): Board => ({
    kind,
    title,
    address: writeAddress({ ...emptyAddress, site, ...some }),
    seconds: usualSeconds,
  })
  return [
    board('plan', 'Where everything stands', { layers: firstLayers }),
    board('exceedances', 'Levels reached, and what was done', { tab: 'alerts' }),
    board('network', 'Loggers and what they delivered', { tab: 'network' }),
    board('minutes', 'What was agreed, and what is still open', { tab: 'meetings' }),
  ]
}

/** A change is called by the meeting that it is counted from: the title of the board before would tell of another. */
function atNewCutOff(site: string, board: Board, { title, cutOffEpochMs }: Meeting): Board {
  const parts = new URLSearchParams(boardAddress(board.address))
  // That of a folder may name none, and without its instant nothing might be left.
  parts.set('site', site)
  parts.delete('at')
  if (board.kind !== 'change') return { ...board, address: parts.toString() }
  parts.set('since', new Date(cutOffEpochMs).toISOString())
  return { ...board, title: `Change since: ${title}`.slice(0, 120), address: parts.toString() }
}
