import type { ListedAlert } from '#contract/alerts.ts'
import type { ResponseStep } from '#domain/alerts/alert.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import { type ResponseState, responseOf, sinceEpochMs } from '../../derived/alerts/response-state.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'
import type { AlertNaming } from './alert-naming.ts'
import { findingWords } from './finding-words.ts'
import { allowedWords, levelName, reachedWords, watchedName, watchedValue } from './level-words.ts'
import { wayWords } from './way-words.ts'

/** What an alert is about, in one line: `Level 2 at SP-31, settlement`. */
export function alertHeading({ cause }: Pick<ListedAlert, 'cause'>, naming: AlertNaming): string {
  if (cause.kind === 'drill') return `Exercise: test of the chain for ${cause.duty}`
  return `${levelName(cause.level.level, naming)} at ${watchedName(cause.level.series, naming)}`
}

/** How far the response is, in a few words. */
export const responseWords: Readonly<Record<ResponseState, string>> = {
  nobody: 'Nobody has taken it up',
  'taken-up': 'Taken up, not yet verified',
  verified: 'Verified, not yet closed',
  closed: 'Closed',
}

/** Since when the level was reached and for how long, or why it no longer counts; whole sentences. */
export function reachedSentence(alert: ListedAlert, nowEpochMs: number, { timeZone }: AlertNaming): string {
  const { episode, cause } = alert
  if (cause.kind === 'drill' || episode === null)
    return 'Nothing was measured: this tests whether people are reached.'
  const at = (epochMs: number) => formatShortInstant(epochMs, timeZone)
  const { crossedAtEpochMs, leftAtEpochMs, leftBecause } = episode
  if (!alert.bornOut)
    return `Not borne out: with readings that came in later the level was not reached as it seemed at ${at(crossedAtEpochMs)}. What was raised stays on record.`
  if (watchedBy(cause.level) === 'silence') return silenceWords(episode, nowEpochMs, at)
  const reached = `Reached ${at(crossedAtEpochMs)}`
  if (leftAtEpochMs === null)
    return `${reached}, ${formatAge(nowEpochMs - crossedAtEpochMs)} ago; still reached at its last reading.`
  const lasted = formatAge(leftAtEpochMs - crossedAtEpochMs)
  return leftBecause === 'level-ended'
    ? `${reached}; the level no longer applies since ${at(leftAtEpochMs)}. Nothing went back by that.`
    : `${reached} for ${lasted}; left ${at(leftAtEpochMs)}, ${formatAge(nowEpochMs - leftAtEpochMs)} ago.`
}

function silenceWords(
  { crossedAtEpochMs, leftAtEpochMs }: Episode,
  nowEpochMs: number,
  at: (epochMs: number) => string,
): string {
  const from = `Silent for longer than allowed since ${at(crossedAtEpochMs)}`
  return leftAtEpochMs === null
    ? `${from}, ${formatAge(nowEpochMs - crossedAtEpochMs)} ago; nothing has come yet.`
    : `${from}, until a reading of ${at(leftAtEpochMs)} came.`
}

/** How far it went by an instant against the level as it stood; null for a drill. */
export function valueSentence(
  { cause, episode }: ListedAlert,
  nowEpochMs: number,
  naming: AlertNaming,
): string | null {
  if (cause.kind === 'drill' || episode === null) return null
  const { level } = cause
  // At a past clock the furthest may lie ahead; how far it had gone then is not on record here.
  const isAhead = episode.peakAtEpochMs > nowEpochMs
  const furthest = isAhead ? null : watchedValue(episode.peakValue, level, naming)
  const at = formatShortInstant(episode.peakAtEpochMs, naming.timeZone)
  return `${furthest === null ? '' : `Furthest ${furthest} at ${at}. `}The level: ${reachedWords(level, naming)}.`
}

/** What the project agreed to do; null for a drill. */
export function planSentence({ cause }: Pick<ListedAlert, 'cause'>): string | null {
  if (cause.kind === 'drill') return null
  const { action, owner, withinMinutes } = cause.level
  return `${sentence(action)} ${owner}, within ${allowedWords(withinMinutes)}.`
}

/** What is left of the time allowed, counted from when it was raised or opened again; null for a drill or a closed alert. */
export function dueSentence(
  alert: ListedAlert,
  nowEpochMs: number,
): { says: string; overdue: boolean } | null {
  if (alert.cause.kind === 'drill') return null
  const response = responseOf(alert)
  if (response === 'closed') return null
  const { withinMinutes } = alert.cause.level
  const dueEpochMs = alert.openedAtEpochMs + withinMinutes * 60_000
  const allowed = `of the ${allowedWords(withinMinutes)} allowed`
  if (alert.verified) {
    const afterMs = alert.verified.atEpochMs - dueEpochMs
    return afterMs > 0
      ? { says: `Verified ${formatAge(afterMs)} after the time allowed.`, overdue: true }
      : { says: 'Verified within the time allowed.', overdue: false }
  }
  const leftMs = dueEpochMs - nowEpochMs
  return leftMs >= 0
    ? { says: `${formatAge(leftMs)} left ${allowed}.`, overdue: false }
    : { says: `Overdue by ${formatAge(-leftMs)} ${allowed}.`, overdue: true }
}

/** Marks that change how an alert is to be read; whole sentences, none where there is nothing to say. */
export function alertRemarks(
  alert: ListedAlert,
  nowEpochMs: number,
  { timeZone }: AlertNaming,
): readonly string[] {
  const at = (epochMs: number) => formatShortInstant(epochMs, timeZone)
  const isOpen = alert.closed === null
  return [
    alert.late ? 'Late: its readings came in too late for anybody to have been told in time.' : '',
    alert.untoldBecause === null ? '' : `Nobody was told: ${sentence(alert.untoldBecause)}`,
    alert.unreachableSinceEpochMs !== null && isOpen
      ? `Nobody could be reached since ${at(alert.unreachableSinceEpochMs)}.`
      : '',
    alert.heldBack !== null && alert.heldBack.untilEpochMs > nowEpochMs && isOpen
      ? `Messages are held back until ${at(alert.heldBack.untilEpochMs)} by ${alert.heldBack.suppression}.`
      : '',
    alert.escalation !== null && isOpen && (alert.escalation.step > 1 || alert.escalation.round > 1)
      ? `People are told by step ${alert.escalation.step}${alert.escalation.round > 1 ? `, round ${alert.escalation.round}` : ''} since ${at(alert.escalation.atEpochMs)}.`
      : '',
  ].filter((one) => one !== '')
}

/** Who was told, by what way, with what came of it: the last attempt of each; whole sentences. */
export function toldSentences(alert: ListedAlert, { timeZone }: AlertNaming): readonly string[] {
  if (alert.attempts === null) return ['Who was told is shown to those who may see it.']
  const last = new Map(alert.attempts.map((one) => [`${one.recipient} ${one.way} ${one.to}`, one]))
  if (last.size === 0)
    return alert.untoldBecause === null && alert.closed === null ? ['No message has been sent yet.'] : []
  return [...last.values()].map(({ recipient, way, outcome, detail, atEpochMs, retryAtEpochMs }) => {
    const at = formatShortInstant(atEpochMs, timeZone)
    const by = `${alert.names?.[recipient] ?? recipient} by ${wayWords[way]}`
    if (outcome === 'delivered') return `${by}: handed over ${at}.`
    if (outcome === 'not-set-up')
      return detail === ''
        ? `${by}: not set up on this server.`
        : `${by}: not set up on this server: ${ended(detail)}`
    const again =
      retryAtEpochMs === null
        ? 'not tried again by this way'
        : `tried again ${formatShortInstant(retryAtEpochMs, timeZone)}`
    return detail === ''
      ? `${by}: failed ${at}, ${again}.`
      : `${by}: failed ${at}, ${again}: ${ended(detail)}`
  })
}

const ended = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`)

/** Who took which step when, with what was said; in order. */
export function stepSentences(
  { acknowledged, verified, closed }: Pick<ListedAlert, 'acknowledged' | 'verified' | 'closed'>,
  { timeZone }: AlertNaming,
): readonly string[] {
  const at = (epochMs: number) => formatShortInstant(epochMs, timeZone)
  const said = (note: string) => (note === '' ? '.' : `: ${note}`)
  return [
    acknowledged
      ? `Taken up${byWhom(acknowledged)} ${at(acknowledged.atEpochMs)}${said(acknowledged.note)}`
      : '',
    verified
      ? `Verified${byWhom(verified)} ${at(verified.atEpochMs)}, ${findingWords[verified.finding]}${said(verified.note)}`
      : '',
    closed ? `Closed${byWhom(closed)} ${at(closed.atEpochMs)}${said(closed.note)}` : '',
  ].filter((one) => one !== '')
}

/** An alert in the shortest words, where several stand together: `Alert 12, Level 2, 3 h: nobody has taken it up`. */
export function shortAlert(alert: ListedAlert, nowEpochMs: number, naming: AlertNaming): string {
  const name = alert.cause.kind === 'drill' ? 'exercise' : levelName(alert.cause.level.level, naming)
  const words = responseWords[responseOf(alert)]
  return `Alert ${alert.alert}, ${name}, ${formatAge(nowEpochMs - sinceEpochMs(alert))}: ${words.charAt(0).toLowerCase()}${words.slice(1)}${alert.bornOut ? '' : '; not borne out'}`
}

/** Who it was is left out for those who may read approved data only. */
const byWhom = ({ by }: ResponseStep): string => (by === '' ? '' : ` by ${by}`)

/** With its full stop. */
const sentence = (words: string) => (/[.!?]$/.test(words) ? words : `${words}.`)
