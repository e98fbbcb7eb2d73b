/** What a board of a meeting shows. */
export const boardKinds = [
  'plan',
  'section',
  'profile',
  'history',
  'change',
  'exceedances',
  'network',
  'minutes',
] as const
export type BoardKind = (typeof boardKinds)[number]

/** One screen of a meeting: a view with its state, as the address bar keeps it. */
export interface Board {
  readonly kind: BoardKind
  readonly title: string
  /** Query part of an address, without `?`: clock, selection, layers, section line and dates. */
  readonly address: string
  /** How long it stands while boards follow one another by themselves. */
  readonly seconds: number
}

/** A meeting over a frozen data set. Its boards may be put together anew: each time another version, the old kept. */
export interface Meeting {
  readonly id: number
  readonly site: string
  readonly title: string
  readonly heldAtEpochMs: number
  /** Its frozen data set; null: its data were not frozen yet, and nothing may be shown as if they were. */
  readonly frozenSet: string | null
  /** Nothing received after this instant is in the set, or will be in it when it is frozen. */
  readonly cutOffEpochMs: number
  /** The meeting whose data the change is counted from; null: the first. */
  readonly previous: number | null
  readonly boards: readonly Board[]
  /** Of its boards, from 1. */
  readonly version: number
  readonly author: string
  readonly atEpochMs: number
}
