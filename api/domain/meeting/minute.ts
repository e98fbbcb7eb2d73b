/** How an action stands: agreed on, said to be done, or given up with a reason. */
export const actionStandings = ['open', 'done', 'dropped'] as const
export type ActionStanding = (typeof actionStandings)[number]

/** What was said of an action after the meeting; only ever added. */
export interface ActionEntry {
  readonly standing: ActionStanding
  readonly note: string
  readonly author: string
  readonly atEpochMs: number
}

/** Something that a meeting wrote down: a statement, or an action that somebody owns until a day. */
export interface Minute {
  readonly id: number
  readonly site: string
  readonly meeting: number
  readonly kind: 'note' | 'action'
  readonly text: string
  /** Measuring points or instruments that it is about; empty: about the site. */
  readonly places: readonly string[]
  /** Who does it; null for a note. */
  readonly owner: string | null
  /** Day in the zone of the site, ISO 8601 (2027-09-14); null for a note. */
  readonly dueOn: string | null
  readonly author: string
  readonly atEpochMs: number
  /** In order of time; an action without any is open. */
  readonly entries: readonly ActionEntry[]
}
