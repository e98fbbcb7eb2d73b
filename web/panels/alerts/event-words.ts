import type { AlertEvent } from '#domain/alerts/alert-event.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import type { AlertNaming } from './alert-naming.ts'
import { findingWords } from './finding-words.ts'
import { levelName, reachedWords, watchedName } from './level-words.ts'
import { wayWords } from './way-words.ts'

/** One event of an alert as a whole sentence, without its instant; `nameOf`: of a contact by its id. */
export function eventSentence(
  { by, happening }: Pick<AlertEvent, 'by' | 'happening'>,
  naming: AlertNaming,
  nameOf: (contact: string) => string = (contact) => contact,
): string {
  const at = (epochMs: number) => formatShortInstant(epochMs, naming.timeZone)
  const who = by ?? 'The server'
  const said = (note: string) => (note === '' ? '.' : `: ${note}`)
  switch (happening.kind) {
    case 'raised': {
      const { cause, late, untoldBecause } = happening
      const told = untoldBecause === null ? '' : ` Nobody is told: ${untoldBecause}`
      if (cause.kind === 'drill')
        return `Raised as an exercise for ${cause.duty} by ${who}: ${cause.reason}.${told}`
      const { level, episode } = cause
      return `Raised: ${watchedName(level.series, naming)} reached ${levelName(level.level, naming)}, ${reachedWords(level, naming)}, at ${at(episode.crossedAtEpochMs)}.${late ? ' Late: its readings came in too late for anybody to have been told in time.' : ''}${told}`
    }
    case 'extent-changed': {
      const { crossedAtEpochMs, leftAtEpochMs } = happening.episode
      return `Later readings changed it: reached ${at(crossedAtEpochMs)}, ${leftAtEpochMs === null ? 'still reached' : `left ${at(leftAtEpochMs)}`}.`
    }
    case 'not-borne-out':
      return 'Not borne out: with readings that came in later the level was not reached as it seemed.'
    case 'borne-out-again':
      return `Borne out again: with readings that came in later it was reached at ${at(happening.episode.crossedAtEpochMs)}.`
    case 'attempted': {
      const { recipient, way, to, outcome, detail, retryAtEpochMs } = happening
      const result = {
        delivered: 'handed over',
        failed: `failed${retryAtEpochMs === null ? ', not tried again by this way' : `, tried again ${at(retryAtEpochMs)}`}`,
        'not-set-up': 'not set up on this server',
      }[outcome]
      return `Message to ${nameOf(recipient)} by ${wayWords[way]}${to === null ? '' : ` to ${to}`}: ${result}${said(detail)}`
    }
    case 'held-back':
      return `Messages held back until ${at(happening.untilEpochMs)} by ${happening.suppression}.`
    case 'escalated': {
      const { step, round, because, recipients } = happening
      const again = round > 1 ? `, for the ${ordinal(round)} time` : ''
      return `Step ${step} of telling people${again}, ${becauseWords[because]}${recipients.length === 0 ? '' : `: ${recipients.map(nameOf).join(', ')}`}.`
    }
    case 'unreachable':
      return `Nobody of ${happening.duty} could be reached.`
    case 'acknowledged':
      return `Taken up by ${who}${said(happening.note)}`
    case 'verified':
      return `Verified by ${who}, ${findingWords[happening.finding]}${said(happening.note)}`
    case 'closed':
      return `Closed by ${who}${said(happening.reason)}`
    case 'reopened':
      return `Opened again by ${who}${said(happening.reason)}`
  }
}

const becauseWords = {
  raised: 'because it was raised',
  'nobody-on': 'because nobody was on',
  'not-delivered': 'because no message was delivered',
  'not-acknowledged': 'because nobody took it up',
} as const

const ordinal = (count: number) => ['', 'first', 'second', 'third'][count] ?? `${count}th`
