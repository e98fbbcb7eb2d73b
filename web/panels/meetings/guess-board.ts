import { boardSeconds } from '#domain/meeting/board-faults.ts'
import type { Board, BoardKind } from '#domain/meeting/meeting.ts'
import { writeAddress } from '../../state/address.ts'
import type { AddressState } from '../../state/address-state.ts'
import type { SheetTab } from '../../state/sheet.ts'
import { formatInstant } from '../../ui/format-instant.ts'

/** How long a board stands where nobody said. */
export const usualSeconds = 30

/** A view as a board: kind and title are guessed from what is open, for a person to change. */
export function guessBoard(
  state: AddressState,
  { zone, stratum }: { readonly zone: string; readonly stratum?: string | null },
): Board {
  const kind = kindOf(state)
  return {
    kind,
    title: titleOf(kind, state, zone, stratum ?? state.surfaceStratum),
    address: boardAddress(writeAddress(state)),
    seconds: Math.max(boardSeconds.least, usualSeconds),
  }
}

/** The address of a view without what a meeting adds by itself, and without what somebody only tries. */
export function boardAddress(query: string): string {
  const parts = new URLSearchParams(query)
  for (const name of ['meeting', 'board', 'frozen', 'whatif']) parts.delete(name)
  return parts.toString()
}

const ofTab: Readonly<Partial<Record<SheetTab, BoardKind>>> = {
  section: 'section',
  alerts: 'exceedances',
  network: 'network',
  meetings: 'minutes',
}

function kindOf({ tab, selection, layers }: AddressState): BoardKind {
  const known = ofTab[tab]
  if (known) return known
  if (selection.kind !== 'nothing' && (tab === 'profile' || tab === 'history')) return tab
  return layers.includes('change') ? 'change' : 'plan'
}

function titleOf(kind: BoardKind, state: AddressState, zone: string, stratum: string | null): string {
  const { selection, changeFromEpochMs, layers } = state
  const selected =
    selection.kind === 'instrument' ? selection.instrument : selection.kind === 'point' ? selection.point : ''
  if (kind === 'section') return selected ? `Section by ${selected}` : 'Section'
  if (kind === 'profile') return `${selected} by depth`
  if (kind === 'history') return `${selected} over time`
  if (kind === 'change')
    return changeFromEpochMs === null
      ? 'Change on the plan'
      : `Change since ${formatInstant(changeFromEpochMs, zone)}`
  if (kind === 'exceedances') return 'Levels reached, and what was done'
  if (kind === 'network') return 'Loggers and what they delivered'
  if (kind === 'minutes') return 'What was agreed, and what is still open'
  if (layers.includes('water')) return stratum ? `Water in ${stratum}` : 'Water'
  if (layers.includes('contours')) return 'Settlement'
  return selected ? `${selected} on the plan` : 'Where everything stands'
}
