import { join } from 'node:path'
import type { AlertsDocument } from '#contract/alerts.ts'
import { type Alert, alertsOf } from '#domain/alerts/alert.ts'
import type { AlertWay } from '#domain/alerts/alert-event.ts'
import { groupBy } from '#domain/group-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { alertsDocument } from '../alerts/alerts-document.ts'
import { evaluationStanding } from '../alerts/evaluation-standing.ts'
import type { LevelsStanding } from '../alerts/levels-standing.ts'
import { createSiteEvaluation } from '../alerts/site-evaluation.ts'
import type { Store } from '../store/store.ts'

export interface AlertsThen {
  /** Bounded by receipt (`boundedStore`). */
  readonly store: Store
  readonly model: SiteModel
  readonly cutOffEpochMs: number
  /** What evaluation knows now, where that is of the very same readings; null: it is worked out anew. */
  readonly standing: LevelsStanding | null
  readonly ways: readonly AlertWay[]
  /** Folder in which nothing is kept yet. */
  readonly emptyFolder: string
  /** Clock of drills where the present of the site is invented; else they go by the cut-off. */
  readonly drillsAtEpochMs: number
}

/** The alerts of a site as the events by the cut-off make them, as whoever may read approved data only sees them. */
export async function alertsThen(asked: AlertsThen): Promise<AlertsDocument> {
  const { store, model, cutOffEpochMs, ways, drillsAtEpochMs } = asked
  const site = model.facts.id
  const events = await store.listAlertEvents(site, 0)
  const begun = [...groupBy(events, ({ alert }) => alert).values()].filter(
    ([first]) => first?.happening.kind === 'raised',
  )
  const standing = asked.standing ?? (await evaluateThen(asked))
  const document = alertsDocument(
    {
      model,
      alerts: new Map(
        alertsOf(begun.flat())
          .flatMap((alert) => alertThen(alert, standing, cutOffEpochMs))
          .map((alert) => [alert.alert, alert]),
      ),
      latest: events.at(-1)?.number ?? 0,
      standing,
      ways,
      asOfEpochMs: cutOffEpochMs,
      nowEpochMs: drillsAtEpochMs,
    },
    false,
  )
  const { failure } = standing.evaluation
  const revision = await store.revision(site)
  // What it was evaluated by is the set itself, whenever that was done.
  return {
    ...document,
    evaluation: { revision, behind: false, evaluatedAtEpochMs: cutOffEpochMs, failure },
  }
}

/**
 * An event may have been recorded with an extent that only later readings brought, where invented data is evaluated all at
 * once: then it has that of the set, and where the set knows of none the alert is left out.
 */
function alertThen(alert: Alert, { episodes }: LevelsStanding, cutOffEpochMs: number): readonly Alert[] {
  const { episode, cause } = alert
  if (episode === null || cause.kind !== 'level') return [alert]
  const known = episodes
    .get(episode.level)
    ?.find(({ crossedAtEpochMs }) => crossedAtEpochMs === episode.crossedAtEpochMs)
  if (known) return [{ ...alert, cause: { ...cause, episode: known }, episode: known }]
  const isLater = [episode, cause.episode].some(
    ({ peakAtEpochMs, leftAtEpochMs }) => Math.max(peakAtEpochMs, leftAtEpochMs ?? 0) > cutOffEpochMs,
  )
  return isLater ? [] : [alert]
}

/** Holds the readings of the set against the levels of the set, and records nothing. */
async function evaluateThen({
  store,
  model,
  cutOffEpochMs,
  emptyFolder,
}: AlertsThen): Promise<LevelsStanding> {
  const site = model.facts.id
  const evaluation = createSiteEvaluation({
    store,
    site,
    folder: join(emptyFolder, 'levels'),
    now: () => cutOffEpochMs,
  })
  await evaluation.run(true)
  return evaluationStanding(evaluation.progress(), {
    storeRevision: await store.revision(site),
    failure: null,
    asOfEpochMs: cutOffEpochMs,
  })
}
