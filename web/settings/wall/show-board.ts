import type { Board, Meeting } from '#domain/meeting/meeting.ts'
import { readAddress } from '../../state/address.ts'
import { restoreAddress } from '../../state/address-bar.ts'
import { countChangeFrom } from '../../state/change-since.ts'
import { restoreLayers } from '../../state/plan-layers.ts'
import { pause } from '../../state/playback.ts'
import { restoreClock } from '../../state/site-clock.ts'

/** Puts clock, selection, layers, line and dates as a board keeps them; the frozen set stays. */
export function showBoard(board: Board, previous: Meeting | null): void {
  pause()
  restoreAddress(readAddress(board.address))
  if (board.kind === 'change') {
    restoreClock('present')
    if (previous) countChangeFrom(previous.cutOffEpochMs)
    restoreLayers(previous ? ['works', 'labels', 'change'] : ['works', 'labels'])
  }
  // How alerts, network and actions stood is told of the cut-off.
  if (board.kind === 'exceedances' || board.kind === 'network' || board.kind === 'minutes')
    restoreClock('present')
}
