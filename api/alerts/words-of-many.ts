import type { Alert } from '#domain/alerts/alert.ts'
import { sayInstant } from '#domain/alerts/say-instant.ts'
import { closingStep } from '#domain/alerts/telling.ts'
import { headlineOf, levelOf } from './alert-headline.ts'
import { cautions } from './cautions.ts'
import type { MessageSite, MessageWords, ToldAlert } from './message-words.ts'

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

function sayWhen({ episode, raisedAtEpochMs }: Alert, { facts }: MessageSite): string {
  return sayInstant(episode?.crossedAtEpochMs ?? raisedAtEpochMs, facts.timeZone)
}
