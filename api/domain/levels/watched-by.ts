import type { TriggerLevel } from '../site/tables.ts'
import type { WatchedOfSeries } from '../site/vocabulary.ts'

/** What a level watches of its series; the value itself where its row does not say. */
export const watchedBy = ({ watches }: Pick<TriggerLevel, 'watches'>): WatchedOfSeries => watches ?? 'value'

/** Ids of the levels that a combination is made of. */
export const membersOf = ({ against }: Pick<TriggerLevel, 'against'>): readonly string[] =>
  (against ?? '')
    .split(';')
    .map((id) => id.trim())
    .filter((id) => id !== '')
