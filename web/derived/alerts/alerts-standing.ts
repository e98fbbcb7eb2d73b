import { formatAge } from '../../ui/format-instant.ts'

/** What may be said of the alerts: nothing, what was so when they were last heard of, or what is so now. */
export type AlertsStanding =
  | {
      readonly kind: 'unknown'
      readonly sentence: string
      /** They were asked for and did not come; else they are awaited. */
      readonly isRefused: boolean
    }
  | { readonly kind: 'last-known'; readonly sentence: string }
  | { readonly kind: 'present' }

export interface HeardAlerts {
  /** When the server gave them, this device's clock. */
  readonly heardAtEpochMs: number
  /** The server did not answer, and this device had kept them. */
  readonly isKept: boolean
}

/** They are asked for every two minutes at the latest; three without an answer, and they are not those of now. */
export const alertsOldAfterMs = 3 * 60_000

/** `trouble`: why the last question got no answer. Whole sentences: a list that is not of now never reads as none. */
export function alertsStanding(
  heard: HeardAlerts | null,
  trouble: string | null,
  unansweredSinceEpochMs: number | null,
  deviceNowEpochMs: number,
): AlertsStanding {
  if (heard === null)
    return {
      kind: 'unknown',
      isRefused: trouble !== null,
      sentence:
        trouble === null
          ? 'Alerts have not arrived yet: whether there are any is not known.'
          : `Alerts are not known here: ${trouble} Whether there are any is not known.`,
    }
  const ageMs = deviceNowEpochMs - heard.heardAtEpochMs
  const silent = heard.isKept || trouble !== null || unansweredSinceEpochMs !== null
  if (!silent && ageMs <= alertsOldAfterMs) return { kind: 'present' }
  const from = heard.isKept ? 'as this device kept them' : 'as last heard from the server'
  return {
    kind: 'last-known',
    sentence: `Alerts ${from} ${formatAge(ageMs)} ago. What was raised, taken up or closed since is not known.`,
  }
}
