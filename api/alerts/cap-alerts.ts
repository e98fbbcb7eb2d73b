import { type Alert, afterEvent, alertOf, isStillReached } from '#domain/alerts/alert.ts'
import type { AlertEvent, AlertHappening } from '#domain/alerts/alert-event.ts'
import { pointOf } from '#domain/alerts/alert-subject.ts'
import { dutyOf } from '#domain/alerts/telling.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { positionOfSeries } from './alert-position.ts'
import type { CapAlert, CapReference } from './cap-message.ts'
import { type SeriesWords, sayLevel, sayWatched } from './level-words.ts'

export interface CapSource {
  readonly model: SiteModel
  readonly series: ReadonlyMap<string, SeriesWords>
  /** Host by which this server is known; with it messages are unique in the world. */
  readonly sender: string
  /** Address of the page, without a slash at its end. */
  readonly address: string
}

/**
 * Every message about one alert, oldest first: an alert when it was raised, an update with each step or change that
 * receivers act on, a cancel when the response was closed, which is no word on the ground. Opened again it is an update.
 */
export function capAlertsOf(
  events: readonly (AlertEvent & { readonly number: number })[],
  source: CapSource,
): readonly CapAlert[] {
  const messages: CapAlert[] = []
  let alert: Alert | null = null
  for (const event of events) {
    alert = alert ? afterEvent(alert, event) : alertOf([event])
    const note = noteOf(event.happening, source.model)
    if (note === null) continue
    messages.push(message(alert, event, note, messages.map(referenceTo), source))
  }
  return messages
}

/** Null: nothing that a receiver acts on. */
function noteOf(happening: AlertHappening, { facts }: SiteModel): string | null {
  const isInvented = facts.invented ? ' Invented data.' : ''
  switch (happening.kind) {
    case 'raised':
      return `Raised${happening.late ? ' from readings that arrived late' : ''}.${isInvented}`
    case 'extent-changed':
    case 'borne-out-again':
      return `Its extent is known better now.${isInvented}`
    case 'not-borne-out':
      return `With readings that came later the level was not reached as it seemed.${isInvented}`
    case 'acknowledged':
      return `Somebody has taken it up; nothing is closed by that.${isInvented}`
    case 'verified':
      return `Found: ${{ movement: 'it was real', nuisance: 'it asked for nothing', false: 'the measuring was at fault' }[happening.finding]}.${isInvented}`
    case 'closed':
      return `The response was closed. This says nothing about the ground.${isInvented}`
    case 'reopened':
      return `The response was opened again.${isInvented}`
    default:
      return null
  }
}

const referenceTo = ({ sender, identifier, sentEpochMs }: CapAlert): CapReference => ({
  sender,
  identifier,
  sentEpochMs,
})

function message(
  alert: Alert,
  { number, atEpochMs, happening }: AlertEvent & { readonly number: number },
  note: string,
  references: readonly CapReference[],
  { model, series, sender, address }: CapSource,
): CapAlert {
  const { facts } = model
  const { cause, episode } = alert
  const level = cause.kind === 'level' ? cause.level : null
  const words = level ? (series.get(level.series) ?? null) : null
  const name = level ? (facts.levelNames[level.level - 1] ?? `Level ${level.level}`) : 'Drill'
  const sayAt = (at: number) => new Date(at).toISOString()
  const position = level ? positionOfSeries(model, level.series) : null
  return {
    identifier: `${facts.id}.${alert.alert}.${number}`,
    sender,
    senderName: facts.name,
    sentEpochMs: atEpochMs,
    timeZone: facts.timeZone,
    status: level === null ? 'Exercise' : facts.invented ? 'Test' : 'Actual',
    msgType: references.length === 0 ? 'Alert' : happening.kind === 'closed' ? 'Cancel' : 'Update',
    audience: {
      scope: 'Restricted',
      restriction: `For those who respond to alerts of ${facts.name}; not for the public.`,
    },
    references,
    note,
    event: level ? `${name} at ${level.series}` : `Drill for ${dutyOf(alert)}`,
    headline: level
      ? `${name} at ${level.series}: ${sayWatched(level, episode, words)}`
      : `Drill for ${dutyOf(alert)}`,
    description: level
      ? `${name}: ${sayLevel(level, words, sayAt)}. ${stretchWords(alert)}`
      : 'A test of whether those on duty are reached and answer. Nothing was measured.',
    action: level ? `${level.action} (${level.owner}, within ${level.withinMinutes} minutes)` : null,
    onsetEpochMs: episode?.crossedAtEpochMs ?? null,
    mapping: null,
    web: `${address}/?site=${encodeURIComponent(facts.id)}&sheet=alerts&alert=${alert.alert}`,
    area: {
      description: level ? `${pointOf(level.series)}, ${facts.name}` : facts.name,
      shape: position && { centre: position, radiusMetres: 0 },
    },
    parameters: {
      alert: alert.alert,
      response: alert.state,
      series: level?.series ?? null,
      level: level?.level ?? null,
      levelId: level?.id ?? null,
      value: episode?.peakValue ?? null,
      unit: words?.unit ?? null,
    },
  }
}

function stretchWords(alert: Alert): string {
  const { episode, bornOut } = alert
  if (!episode) return ''
  if (!bornOut) return 'With readings that came later it was not reached as it seemed.'
  const at = new Date(episode.crossedAtEpochMs).toISOString()
  return isStillReached(alert)
    ? `Reached at ${at}, and still reached at the last reading.`
    : `Reached at ${at}; by its last readings left again at ${new Date(episode.leftAtEpochMs ?? 0).toISOString()}.`
}
