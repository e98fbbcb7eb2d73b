import type { LevelGroup } from '#domain/alerts/level-group.ts'
import type { ArrivedReadings, Store } from '../store/store.ts'
import type { WatchedGroup, WatchPlan } from './watch-plan.ts'

/** What folding what arrived needs. */
export interface FoldRequest {
  readonly store: Store
  readonly site: string
  readonly plan: WatchPlan
  /** How far groups are folded, by key; changed as they are folded on. One that is not in it is folded anew. */
  readonly folded: Map<string, LevelGroup>
  readonly arrived: Pick<ArrivedReadings, 'channels'>
  /** Groups that are left alone this time. */
  readonly waiting: ReadonlySet<string>
  /** Told of a group that could not be folded; the others go on. */
  readonly onFailure: (group: WatchedGroup, cause: unknown) => void
}
