import { type Alert, afterEvent, alertsOf } from '#domain/alerts/alert.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { foldCombination } from '#domain/alerts/fold-combination.ts'
import { episodesInGroup, type LevelGroup } from '#domain/alerts/level-group.ts'
import { inForceOf } from '#domain/levels/value-levels.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Store, StoredAlertEvent } from '../store/store.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import { episodesAt } from './episodes-at.ts'
import { readSnapshot, writeSnapshot } from './evaluation-snapshot.ts'
import { foldArrived } from './fold-groups.ts'
import { eventsOfWithdrawn, eventsToRecord, type LevelNow } from './raise-alerts.ts'
import { planWatching, type WatchedGroup, type WatchPlan } from './watch-plan.ts'

/** How far the levels of a site are evaluated. */
export interface SiteProgress {
  readonly plan: WatchPlan | null
  readonly folded: ReadonlyMap<string, LevelGroup>
  /** Every episode of each level, by its id. */
  readonly episodes: ReadonlyMap<string, readonly Episode[]>
  readonly revision: number
  readonly evaluatedAtEpochMs: number | null
  /** Levels that cannot be evaluated though others can, each with the reason. */
  readonly broken: readonly string[]
}

export interface SiteEvaluation {
  readonly progress: () => SiteProgress
  /** The same readings with the episodes that they make up to an instant, whenever the clock was last run. */
  readonly progressAt: (asOfEpochMs: number) => SiteProgress
  /**
   * Evaluates whatever arrived since the last run; with `clock` also what time alone does. Resolves with what was
   * recorded. May be repeated after a failure: nothing is raised twice.
   */
  run(clock: boolean): Promise<readonly StoredAlertEvent[]>
  /** Keeps how far it is, for the next start; runs may go on meanwhile. */
  save(): Promise<void>
}

export interface SiteEvaluationDependencies {
  readonly store: Store
  readonly site: string
  /** Folder of snapshots. */
  readonly folder: string
  readonly now: () => number
}

/** How long a level that could not be folded is left alone before it is tried again. */
const retryBrokenMs = 60_000

/** The evaluation of one site. Runs must follow one another. */
export function createSiteEvaluation(dependencies: SiteEvaluationDependencies): SiteEvaluation {
  const { store, site, folder, now } = dependencies
  let plan: WatchPlan | null = null
  let planRevision = 0
  let revision = 0
  let savedRevision = -1
  let evaluatedAtEpochMs: number | null = null
  /** The present of the last run by the clock. */
  let clockedEpochMs = Number.NEGATIVE_INFINITY
  let unrecorded = true
  let latestEvent = 0
  let folded = new Map<string, LevelGroup>()
  const episodes = new Map<string, readonly Episode[]>()
  const alerts = new Map<number, Alert>()
  const alertsOfLevel = new Map<string, Set<number>>()
  const broken = new Map<string, { readonly retryAtEpochMs: number; readonly reason: string }>()

  function hear(events: readonly StoredAlertEvent[]): void {
    for (const event of events) {
      const known = alerts.get(event.alert)
      const alert = known ? afterEvent(known, event) : (alertsOf([event])[0] as Alert)
      alerts.set(event.alert, alert)
      if (alert.cause.kind === 'level') {
        const { id } = alert.cause.level
        alertsOfLevel.set(id, (alertsOfLevel.get(id) ?? new Set()).add(event.alert))
      }
      latestEvent = Math.max(latestEvent, event.number)
    }
  }

  /** Reads the records anew; groups that they leave as they were go on from where they are. */
  async function readRecords(): Promise<WatchPlan> {
    if (plan === null) {
      const snapshot = await readSnapshot(folder, site)
      // One from a store that was put back to an earlier copy knows of readings that are no longer here.
      if (snapshot && snapshot.revision <= (await store.revision(site))) {
        folded = new Map(snapshot.groups)
        revision = snapshot.revision
        savedRevision = revision
      }
    }
    const readAt = await store.revision(site)
    const next = await planWatching(store, site)
    planRevision = readAt
    const keys = new Set(next.groups.map(({ key }) => key))
    for (const key of folded.keys()) if (!keys.has(key)) folded.delete(key)
    for (const key of broken.keys()) if (!keys.has(key)) broken.delete(key)
    for (const id of episodes.keys()) if (!next.levels.has(id)) episodes.delete(id)
    return next
  }

  /** Episodes of the levels of some groups, and of what is made of them; the levels that now have new ones. */
  function refreshEpisodes(
    { combinations, levels, model }: WatchPlan,
    changed: readonly WatchedGroup[],
    asOfEpochMs: number,
  ): ReadonlySet<TriggerLevel> {
    const fresh = new Set<TriggerLevel>()
    for (const group of changed) {
      const state = folded.get(group.key)
      if (state === undefined) continue
      for (const [at, { level }] of group.levels.entries()) {
        episodes.set(level.id, episodesInGroup(state, at, asOfEpochMs))
        fresh.add(level)
      }
    }
    const done = new Set<string>()
    const combine = (level: TriggerLevel): readonly Episode[] => {
      if (watchedBy(level) !== 'combination' || done.has(level.id)) return episodes.get(level.id) ?? []
      done.add(level.id)
      const members = membersOf(level).flatMap((id) => levels.get(id) ?? [])
      const ofMembers = members.map(combine)
      const known = episodes.get(level.id)
      if (known && known.at(-1)?.leftAtEpochMs !== null && members.every((one) => !fresh.has(one)))
        return known
      const stretch = inForceOf(level, model.stages)
      episodes.set(
        level.id,
        stretch === null ? [] : foldCombination(level, ofMembers, asOfEpochMs, [stretch]),
      )
      fresh.add(level)
      return episodes.get(level.id) ?? []
    }
    for (const level of combinations) combine(level)
    return fresh
  }

  const levelNow = (level: TriggerLevel): LevelNow => ({
    level,
    episodes: episodes.get(level.id) ?? [],
    alerts: [...(alertsOfLevel.get(level.id) ?? [])].map((number) => alerts.get(number) as Alert),
    lateAfterMinutes: plan?.lateAfterMinutes.get(level.series) ?? 0,
  })

  const progress = (): SiteProgress => ({
    plan,
    folded,
    episodes,
    revision,
    evaluatedAtEpochMs,
    broken: [...broken.values()].map(({ reason }) => reason),
  })

  return {
    progress,

    progressAt: (asOfEpochMs) =>
      plan === null ? progress() : { ...progress(), episodes: episodesAt(plan, folded, asOfEpochMs) },

    async run(clock) {
      if (plan === null) plan = await readRecords()
      const arrived = await store.arrivedSince(site, revision)
      if (arrived.recordsChanged && arrived.revision > planRevision) plan = await readRecords()
      const { model, groups } = plan
      const presentEpochMs = model.facts.presentEpochMs ?? now()
      const waiting = new Set([...broken].filter(([, one]) => one.retryAtEpochMs > now()).map(([key]) => key))
      for (const key of broken.keys()) if (!waiting.has(key)) broken.delete(key)
      const changed = await foldArrived({
        store,
        site,
        plan,
        folded,
        arrived,
        waiting,
        onFailure: ({ key, levels }, cause) => {
          const reason = `${levels.map(({ level }) => level.id).join(', ')}: ${wordsOfFailure(cause)}`
          broken.set(key, { retryAtEpochMs: now() + retryBrokenMs, reason })
        },
      })
      // Until a run has been recorded whole, and after records have changed, every level is looked at.
      const whole = unrecorded || arrived.recordsChanged
      const moved = clock
        ? groups.filter((group) => movesByClock(group, episodes, clockedEpochMs, presentEpochMs))
        : []
      const fresh = refreshEpisodes(plan, whole ? groups : [...changed, ...moved], presentEpochMs)
      // Nobody else raises alerts or changes their extent, so after the first time only what failed is read again.
      if (unrecorded) hear(await store.listAlertEvents(site, latestEvent))
      const events = [
        ...(whole ? eventsOfWithdrawn(alerts.values(), plan.levels, presentEpochMs) : []),
        ...eventsToRecord(model, [...fresh].map(levelNow), presentEpochMs),
      ]
      unrecorded = true
      const stored = events.length === 0 ? [] : await store.appendAlertEvents(site, events)
      hear(stored)
      revision = arrived.revision
      evaluatedAtEpochMs = now()
      if (clock || whole) clockedEpochMs = presentEpochMs
      unrecorded = false
      return stored
    },

    async save() {
      if (plan === null || evaluatedAtEpochMs === null || savedRevision === revision) return
      const saved = { revision, groups: new Map(folded) }
      await writeSnapshot(folder, site, saved)
      savedRevision = saved.revision
    },
  }
}

/** What has begun may end, silence begins, and a level may begin to apply, without a reading. */
const movesByClock = (
  { levels }: WatchedGroup,
  episodes: ReadonlyMap<string, readonly Episode[]>,
  sinceEpochMs: number,
  presentEpochMs: number,
): boolean =>
  levels.some(
    ({ level, inForce }) =>
      watchedBy(level) === 'silence' ||
      episodes.get(level.id)?.at(-1)?.leftAtEpochMs === null ||
      inForce.some(({ fromEpochMs }) => sinceEpochMs < fromEpochMs && fromEpochMs <= presentEpochMs),
  )
