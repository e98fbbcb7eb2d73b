import { createHash } from 'node:crypto'
import type { Alert } from '#domain/alerts/alert.ts'
import type { AlertKind } from '#domain/alerts/alert-kinds.ts'
import { closingStep, type DueTelling } from '#domain/alerts/telling.ts'
import { groupBy } from '#domain/group-by.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import { type Way, wayText } from '#domain/roster/contact-ways.ts'

/** One alert to be told to somebody. */
export interface DueAlert {
  readonly due: DueTelling
  readonly alert: Alert
}

/** One message to one person by one way, with every alert that it tells. */
export interface Parcel {
  /** Stable: the same alerts at the same step to the same person, by whatever way, are the same message. */
  readonly id: string
  readonly site: string
  readonly contact: string
  readonly way: Way
  readonly kind: AlertKind
  readonly alerts: readonly DueAlert[]
}

/**
 * After a message to somebody, further ones by the same way wait so long and come as one: in a flood at most two a
 * minute, and each alert is told well within its minute.
 */
export const gatherMs = 30_000

/**
 * Messages from what is due. What is new for one person is gathered by kind, so that an exercise never stands among what
 * was measured and a receiver of some kinds gets these; a message that failed goes again as it was, less what was taken up.
 */
export function gatherParcels(
  site: string,
  due: readonly DueAlert[],
  lastSentAtEpochMs: (contact: string, way: Way) => number | null,
  nowEpochMs: number,
): readonly Parcel[] {
  const ready = due.filter(({ due: { message, contact, way } }) => {
    const last = lastSentAtEpochMs(contact, way)
    return message !== null || last === null || nowEpochMs - last >= gatherMs || nowEpochMs < last
  })
  const keyOf = ({ due: one, alert }: DueAlert): string =>
    JSON.stringify([one.contact, wayText(one.way), one.message ?? kindOf(alert, one), one.message !== null])
  return [...groupBy(ready, keyOf).values()].flatMap((alerts): readonly Parcel[] => {
    const [first] = alerts
    if (!first) return []
    const { contact, way, message } = first.due
    const kind = kindOf(first.alert, first.due)
    return [{ id: message ?? parcelId(site, contact, alerts), site, contact, way, kind, alerts }]
  })
}

/** The kind of a message about one alert. */
export function kindOf({ cause }: Alert, { step, round }: Pick<DueTelling, 'step' | 'round'>): AlertKind {
  if (cause.kind === 'drill') return 'drill'
  if (step === closingStep) return 'closed'
  if (step > 1 || round > 1) return 'escalated'
  return watchedBy(cause.level) === 'silence' ? 'silence' : 'raised'
}

function parcelId(site: string, contact: string, alerts: readonly DueAlert[]): string {
  const told = alerts.map(
    ({ alert, due }) => `${alert.alert}.${alert.openedAtEpochMs}.${due.step}.${due.round}`,
  )
  const hash = createHash('sha256').update(JSON.stringify([site, contact, ...told.sort()]))
  return `${site}-${hash.digest('base64url').slice(0, 22)}`
}
