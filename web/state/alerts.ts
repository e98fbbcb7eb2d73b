import { createMemo, createRoot, createSignal } from 'solid-js'
import type { AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import { needSomebody } from '../derived/alerts/alert-groups.ts'
import { alertsAsOf, mayLackAlerts } from '../derived/alerts/alerts-as-of.ts'
import { type AlertsStanding, alertsStanding, type HeardAlerts } from '../derived/alerts/alerts-standing.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { askServerWithin, isSignInNeeded, keptAtEpochMs, sentenceOf } from './ask-server.ts'
import { unansweredSinceEpochMs } from './connection.ts'
import { isFrozen } from './frozen.ts'
import { sitePath, statesWithinMs } from './open-site.ts'
import { clockEpochMs, isAtPresent } from './site-clock.ts'
import { siteDocument } from './site-document.ts'
import { movingDeviceNowEpochMs } from './site-now.ts'

interface KnownAlerts extends HeardAlerts {
  readonly document: AlertsDocument
}

const [known, setKnown] = createSignal<KnownAlerts | null>(null)
const [trouble, setTrouble] = createSignal<{ readonly site: string; readonly sentence: string } | null>(null)

const knownHere = (): KnownAlerts | null => {
  const heard = known()
  return heard !== null && heard.document.site === siteDocument()?.facts.id ? heard : null
}

/** The alerts of the open site as last heard; null: they never were. `alertsKnown` says of when they are. */
export const alertsDocument = (): AlertsDocument | null => knownHere()?.document ?? null

/** Whether what is known of alerts may be spoken of in the present, and what to say where it may not. */
export const alertsKnown = createRoot(() =>
  createMemo((): AlertsStanding => {
    const failed = trouble()
    const sentence = failed !== null && failed.site === siteDocument()?.facts.id ? failed.sentence : null
    // Frozen alerts do not grow old: the page says of which instant all of it is.
    if (isFrozen() && knownHere() !== null) return { kind: 'present' }
    return alertsStanding(knownHere(), sentence, unansweredSinceEpochMs(), movingDeviceNowEpochMs())
  }),
)

/** What the site clock makes of the alerts. */
export interface AlertsAtClock {
  readonly alerts: readonly ListedAlert[]
  /** Instant that ages are counted to. */
  readonly atEpochMs: number
  /** They stood so at an earlier instant: no step of now is among them. */
  readonly isPast: boolean
  /** Alerts closed since then may be missing: the list does not reach so far back. */
  readonly mayLack: boolean
  /** Of invented data, which is all evaluated at one instant: as if it had been as readings came in. */
  readonly asIfEvaluated: boolean
}

/** Alerts as they are, or as they stood at a past clock; null: not known. */
export const alertsAtClock = createRoot(() =>
  createMemo((): AlertsAtClock | null => {
    const document = alertsDocument()
    if (!document) return null
    const at = clockEpochMs()
    if (isAtPresent() || at === null)
      return {
        alerts: document.alerts,
        atEpochMs: alertsNowEpochMs(),
        isPast: false,
        mayLack: false,
        asIfEvaluated: false,
      }
    const asIfEvaluated = hasOwnPresent()
    return {
      alerts: alertsAsOf(document.alerts, at, asIfEvaluated),
      atEpochMs: at,
      isPast: true,
      mayLack: mayLackAlerts(document, at),
      asIfEvaluated,
    }
  }),
)

/** Whether the present of the open site stands still: invented data ends there. */
const hasOwnPresent = (): boolean => siteDocument()?.facts.presentEpochMs != null

/** The present by the alerts' own clock: that of the server when it told them, and what has passed here since. */
export function alertsNowEpochMs(): number {
  const heard = knownHere()
  if (!heard) return 0
  const passedMs =
    hasOwnPresent() || isFrozen() ? 0 : Math.max(0, movingDeviceNowEpochMs() - heard.heardAtEpochMs)
  return heard.document.asOfEpochMs + passedMs
}

/** How evaluation stands, by the site's clock: the server evaluates by its own, where the site's present stands still. */
export function evaluationHere(): AlertsDocument['evaluation'] | null {
  const heard = knownHere()
  if (!heard) return null
  const { evaluation, asOfEpochMs } = heard.document
  const { evaluatedAtEpochMs } = evaluation
  if (!hasOwnPresent() || evaluatedAtEpochMs === null) return evaluation
  const agoMs = isFrozen() ? 0 : Math.max(0, movingDeviceNowEpochMs() - evaluatedAtEpochMs)
  return {
    ...evaluation,
    evaluatedAtEpochMs: evaluation.behind || evaluation.failure ? asOfEpochMs - agoMs : asOfEpochMs,
  }
}

/** How many alerts nobody has taken up; null: what is known is not of now. */
export const alertsWaiting = createRoot(() =>
  createMemo((): number | null => {
    const document = alertsDocument()
    return document === null || alertsKnown().kind !== 'present' ? null : needSomebody(document.alerts)
  }),
)

/** Asks for the alerts; what was known stays where that fails, and is then said to be old. */
export const refreshAlerts = latestOnly(async (site: string, signal: AbortSignal) => {
  const ask = async (fresh: boolean) => {
    const path = sitePath(site, '/alerts')
    const document = await askServerWithin<AlertsDocument>(path, statesWithinMs, { signal, fresh })
    if (signal.aborted) return
    const keptAt = keptAtEpochMs(document)
    setKnown({ document, heardAtEpochMs: keptAt ?? Date.now(), isKept: keptAt !== null })
    setTrouble(null)
    // What the device kept stands for a slow network; the server's own list is waited for.
    if (keptAt !== null && !fresh) await ask(true)
  }
  try {
    await ask(false)
  } catch (cause) {
    if (!signal.aborted) {
      const sentence = isSignInNeeded(cause) ? 'Nobody is signed in here.' : sentenceOf(cause)
      setTrouble({ site, sentence })
    }
    throw cause
  }
})
