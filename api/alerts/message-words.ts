import { type Alert, isStillReached } from '#domain/alerts/alert.ts'
import { pointOf } from '#domain/alerts/alert-subject.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { sayInstant } from '#domain/alerts/say-instant.ts'
import type { SilentWatched } from '#domain/alerts/silent-watched.ts'
import { closingStep, dutyOf } from '#domain/alerts/telling.ts'
import type { SiteFacts } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { cautions } from './cautions.ts'
import { type SeriesWords, sayLevel, sayWatched } from './level-words.ts'

/** One alert as a message tells it. */
export interface ToldAlert {
  readonly alert: Alert
  readonly step: number
  readonly round: number
  readonly series: SeriesWords | null
  /** Alerts of lower levels of the same series that are not closed. */
  readonly lowerOpen: readonly Alert[]
}

/** What every message of a site needs. */
export interface MessageSite {
  readonly facts: Pick<SiteFacts, 'id' | 'name' | 'timeZone' | 'levelNames' | 'invented'>
  /** Series with a level in force that have no current data, of how many; null: not known now. */
  readonly silent: SilentWatched | null
}

export interface MessageWords {
  readonly subject: string
  readonly text: string
  /** Address in the page, without origin. */
  readonly path: string
  readonly facts: Readonly<Record<string, string | number | boolean | null>>
}

/** What is told of one alert: what, where, value, level, when, what to do, and what must be read with it. */
export function wordsOfOne(told: ToldAlert, site: MessageSite): MessageWords {
  const { alert } = told
  const path = pathOf(site, alert.alert)
  if (told.step === closingStep) return closingWords(told, site)
  const headline = headlineOf(told, site)
  const lines = alert.cause.kind === 'drill' ? drillLines(alert.cause) : levelLines(told, site)
  return {
    subject: headline,
    text: [
      `${headline}.`,
      '',
      ...lines,
      '',
      `You are told because you are on for ${dutyOf(alert)}${reasonOf(told)}.`,
      'Take it up in the page: acknowledging ends the telling and nothing else. What was found, and closing, are said there later.',
      '',
      ...cautions(site.silent),
    ].join('\n'),
    path,
    facts: factsOf(told),
  }
}

/** That a response was closed says nothing about the ground. */
function closingWords(told: ToldAlert, site: MessageSite): MessageWords {
  const { alert } = told
  const subject = `response closed: ${headlineOf(told, site)}`
  const { closed, verified } = alert
  return {
    subject,
    text: [
      `${subject}.`,
      '',
      ...(verified ? [`Found by ${verified.by}: ${verified.note}`] : []),
      ...(closed ? [`Closed by ${closed.by}: ${closed.note}`] : []),
      isStillReached(alert)
        ? 'By its last readings the level is still reached. Closing ends a response and changes nothing in the ground.'
        : 'Closing ends a response; it says nothing about the ground.',
      '',
      ...cautions(site.silent),
    ].join('\n'),
    path: pathOf(site, alert.alert),
    facts: { ...factsOf(told), finding: verified?.finding ?? null },
  }
}

/** Several alerts for one recipient as one message that lists every one of them, highest level first. */
export function wordsOfMany(told: readonly ToldAlert[], site: MessageSite): MessageWords {
  const areClosed = told.every(({ step }) => step === closingStep)
  const path = `/?site=${encodeURIComponent(site.facts.id)}&sheet=alerts`
  const ordered = told.toSorted(
    (one, other) => levelOf(other.alert) - levelOf(one.alert) || one.alert.alert - other.alert.alert,
  )
  const actions = new Map<string, number>()
  for (const { alert } of ordered)
    if (alert.cause.kind === 'level') {
      const { action, owner, withinMinutes } = alert.cause.level
      const line = `${action} (${owner}, within ${withinMinutes} minutes)`
      actions.set(line, (actions.get(line) ?? 0) + 1)
    }
  return {
    subject: `${areClosed ? `${told.length} responses closed` : `${told.length} alerts`}, highest ${headlineOf(ordered[0] as ToldAlert, site)}`,
    text: [
      areClosed
        ? `The responses to ${told.length} alerts were closed, which says nothing about the ground. Every one of them:`
        : `${told.length} alerts came together. Every one of them:`,
      '',
      ...ordered.map((one) => `${one.alert.alert}. ${headlineOf(one, site)}, ${sayWhen(one.alert, site)}`),
      '',
      ...(areClosed
        ? []
        : [
            ...[...actions].map(([line, count]) => `Do, for ${count} of them: ${line}`),
            '',
            'Take each up in the page: acknowledging one ends the telling of that one and nothing else.',
            '',
          ]),
      ...cautions(site.silent),
    ].join('\n'),
    path,
    facts: {
      alerts: ordered.map(({ alert }) => alert.alert).join(' '),
      count: told.length,
      highestLevel: Math.max(...told.map(({ alert }) => levelOf(alert))),
    },
  }
}

const pathOf = ({ facts }: MessageSite, alert: number): string =>
  `/?site=${encodeURIComponent(facts.id)}&sheet=alerts&alert=${alert}`

const levelOf = ({ cause }: Alert): number => (cause.kind === 'level' ? cause.level.level : 0)

const nameOf = ({ facts }: MessageSite, level: number): string =>
  facts.levelNames[level - 1] ?? `Level ${level}`

function headlineOf({ alert, series }: ToldAlert, site: MessageSite): string {
  if (alert.cause.kind === 'drill') return `drill for ${alert.cause.duty}`
  const { level } = alert.cause
  return `${nameOf(site, level.level)} at ${level.series}: ${sayWatched(level, alert.episode, series)}`
}

/** What is tested, and why now. */
const drillLines = ({
  duty,
  reason,
}: {
  readonly duty: string
  readonly reason: string
}): readonly string[] =>
  [
    `This tests whether ${duty} is reached and answers. Nothing was measured.`,
    reason === '' ? '' : `Why now: ${reason}`,
  ].filter((line) => line !== '')

function levelLines(told: ToldAlert, site: MessageSite): readonly string[] {
  const { alert, series, lowerOpen } = told
  if (alert.cause.kind !== 'level' || !alert.episode) return []
  const { level } = alert.cause
  const { episode } = alert
  return [
    `Where: ${pointOf(level.series)}, ${site.facts.name}`,
    `Level: ${nameOf(site, level.level)}, ${sayLevel(level, series, (at) => sayInstant(at, site.facts.timeZone))} (${level.id})`,
    ...timeLines(alert, episode, site.facts.timeZone),
    ...(alert.bornOut
      ? []
      : ['With readings that came later the level was not reached as it seemed. Look at them first.']),
    ...lowerOpen.map(
      (lower) =>
        `Higher than before: alert ${lower.alert} of the same series, ${nameOf(site, levelOf(lower))}, is still open.`,
    ),
    ...instructionLines(level),
  ]
}

function timeLines(alert: Alert, episode: Episode, zone: string): readonly string[] {
  const at = (instant: number) => sayInstant(instant, zone)
  return [
    `Reached: ${at(episode.crossedAtEpochMs)}${
      episode.heldAtEpochMs !== null && episode.heldAtEpochMs !== episode.crossedAtEpochMs
        ? `, and still at ${at(episode.heldAtEpochMs)}`
        : ''
    }`,
    `Received: ${at(episode.knownAtEpochMs)}`,
    ...(alert.late ? ['These readings arrived late: it was so before anybody could be told.'] : []),
    ...(episode.leftAtEpochMs === null
      ? []
      : [`By its last readings the level was left again at ${at(episode.leftAtEpochMs)}.`]),
    `Raised: ${at(alert.raisedAtEpochMs)}${
      alert.openedAtEpochMs === alert.raisedAtEpochMs ? '' : `, opened again ${at(alert.openedAtEpochMs)}`
    }`,
  ]
}

const instructionLines = ({ action, owner, withinMinutes }: TriggerLevel): readonly string[] => [
  `Do: ${action}`,
  `Who: ${owner}, within ${withinMinutes} minutes`,
]

function sayWhen({ episode, raisedAtEpochMs }: Alert, { facts }: MessageSite): string {
  return sayInstant(episode?.crossedAtEpochMs ?? raisedAtEpochMs, facts.timeZone)
}

function reasonOf({ alert, step, round }: ToldAlert): string {
  if (round > 1) return ', and nobody has taken it up yet: this is said again until somebody does'
  if (step === 1) return ''
  const { escalation } = alert
  switch (escalation?.because) {
    case 'nobody-on':
      return ', and nobody was on for the step before'
    case 'not-delivered':
      return ', and nobody before you was reached'
    default:
      return ', and nobody before you has taken it up'
  }
}

function factsOf({ alert, step, series, lowerOpen }: ToldAlert): MessageWords['facts'] {
  const { cause, episode } = alert
  if (cause.kind === 'drill') return { duty: cause.duty, step }
  const { level } = cause
  return {
    series: level.series,
    level: level.level,
    levelId: level.id,
    levelValue: level.value,
    value: episode?.peakValue ?? null,
    unit: series?.unit ?? null,
    crossedAt: toText(episode?.crossedAtEpochMs),
    receivedAt: toText(episode?.knownAtEpochMs),
    raisedAt: toText(alert.raisedAtEpochMs),
    action: level.action,
    owner: level.owner,
    withinMinutes: level.withinMinutes,
    step,
    lowerOpen: lowerOpen.map((lower) => lower.alert).join(' ') || null,
  }
}

const toText = (epochMs: number | undefined) =>
  epochMs === undefined ? null : new Date(epochMs).toISOString()
