import type { BoardKind } from '#domain/meeting/meeting.ts'
import { writeAddress } from '../../state/address.ts'
import { currentAddress } from '../../state/address-bar.ts'
import { shownBoard } from '../../state/meeting.ts'
import { readWallAddress } from '../../state/on-wall.ts'
import { pause } from '../../state/playback.ts'
import type { SheetTab } from '../../state/sheet.ts'

/** Where the desk shows what a board showed; what stands on the plan leaves the tab as the board kept it. */
const tabs: Readonly<Partial<Record<BoardKind, SheetTab>>> = {
  section: 'section',
  profile: 'profile',
  history: 'history',
  exceedances: 'alerts',
  network: 'network',
}

/**
 * Comes back to the desk with what the board showed, still of the frozen data: nothing newer appears before the client's
 * eyes until somebody asks for it.
 */
export function leaveWall(): void {
  pause()
  const now = currentAddress()
  const kind = shownBoard()?.kind
  location.assign(
    `?${writeAddress({
      ...now,
      site: now.site ?? readWallAddress(location.search)?.site ?? null,
      tab: (kind && tabs[kind]) ?? now.tab,
    })}`,
  )
}
