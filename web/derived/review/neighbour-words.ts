import type { AgreementKind } from '#domain/review/agreement.ts'

/** What stands for a neighbour on the plan and in its key: told apart by shape and word, never by colour alone. */
export type NeighbourKind = AgreementKind | 'out-of-use' | 'parted'

interface NeighbourSign {
  readonly sign: string
  readonly name: string
  /** How the line to it is drawn. */
  readonly line: 'whole' | 'dashes' | 'dots' | 'stub'
}

export const neighbourSigns: Readonly<Record<NeighbourKind, NeighbourSign>> = {
  'moves-with': { sign: '●', name: 'moves with it', line: 'whole' },
  'moves-otherwise': { sign: '◆', name: 'moves otherwise', line: 'dashes' },
  still: { sign: '■', name: 'no change told while it moved', line: 'dots' },
  'both-still': { sign: '□', name: 'no change told of either', line: 'whole' },
  silent: { sign: '○', name: 'silent', line: 'stub' },
  'out-of-use': { sign: '–', name: 'out of use', line: 'stub' },
  'cannot-say': { sign: '?', name: 'too noisy or too short to say', line: 'stub' },
  parted: { sign: '×', name: 'behind a wall, not held against it', line: 'stub' },
}
