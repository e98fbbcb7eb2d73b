import type { Alert } from '#domain/alerts/alert.ts'
import { isTold, type SendingUnderWay, type Telling, tellingOf } from '#domain/alerts/telling.ts'
import { groupBy } from '#domain/group-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { NewAlertEvent } from '../store/store.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import type { KnownSite } from './create-known-sites.ts'
import type { DueAlert } from './gather-parcels.ts'

interface Due {
  readonly due: readonly DueAlert[]
  /** Steps of telling people that follow now, to be recorded. */
  readonly events: readonly NewAlertEvent[]
}

/** Whether anybody may have to be told of it: it waits for somebody, or those who were told wait for word. */
export const isTellable = (alert: Alert): boolean =>
  isTold(alert) || (alert.closed !== null && alert.attempts.length > 0)

/**
 * Finds what of the alerts of a site is to be told now. What is known to rest is not asked for again until something can
 * follow; one that cannot be decided is reported and keeps nobody from being told of the others.
 */
export function createDueFinder(
  report: (line: string) => void,
): (
  alerts: Iterable<Alert>,
  about: KnownSite,
  underWay: readonly SendingUnderWay[],
  atEpochMs: number,
) => Due {
  /** Of alerts as they are now, until when nothing follows by itself with the records as they are. */
  const quiet = new WeakMap<Alert, { readonly model: SiteModel; readonly untilEpochMs: number }>()

  /** Null: it could not be decided, which is reported and keeps nobody from being told of the others. */
  function decide(...[alert, about, underWay, atEpochMs]: Parameters<typeof tellingOf>): Telling | null {
    try {
      return tellingOf(alert, about, underWay, atEpochMs)
    } catch (failure) {
      report(`alert ${alert.alert}: whom to tell could not be decided: ${wordsOfFailure(failure)}`)
      return null
    }
  }

  return (alerts, about, sent, atEpochMs) => {
    const underWay = groupBy(sent, ({ alert }) => alert)
    const due: DueAlert[] = []
    const events: NewAlertEvent[] = []
    for (const alert of alerts) {
      // What is measured at an invented site happens nowhere.
      if (!isTellable(alert) || (about.model.facts.invented && alert.cause.kind !== 'drill')) continue
      const rest = quiet.get(alert)
      if (rest?.model === about.model && atEpochMs < rest.untilEpochMs) continue
      const telling = decide(alert, about.tellingSite, underWay.get(alert.alert) ?? [], atEpochMs)
      if (telling === null) continue
      // What is on its way may be recorded already and still count as such: it is asked again.
      if (telling.due.length === 0 && !underWay.has(alert.alert))
        quiet.set(alert, {
          model: about.model,
          untilEpochMs: Math.min(telling.nextEpochMs, nextSuppression(about.model, atEpochMs)),
        })
      due.push(...telling.due.map((one) => ({ due: one, alert })))
      events.push(
        ...telling.happenings.map((happening) => ({ alert: alert.alert, atEpochMs, by: null, happening })),
      )
    }
    return { due, events }
  }
}

/** First instant after this one at which something may come to hold alerts back. */
const nextSuppression = ({ suppressions }: SiteModel, atEpochMs: number): number =>
  Math.min(
    ...suppressions.map(({ fromAt }) => fromAt).filter((fromAt) => fromAt > atEpochMs),
    Number.POSITIVE_INFINITY,
  )
