import { accept, type Outcome, reject } from '../outcome.ts'
import { type Alert, isStillReached } from './alert.ts'
import type { AlertHappening, Finding } from './alert-event.ts'

/** A step that a person takes. */
export type AlertAction =
  | { readonly kind: 'acknowledge'; readonly note: string }
  | { readonly kind: 'verify'; readonly finding: Finding; readonly note: string }
  | { readonly kind: 'close'; readonly reason: string }
  | { readonly kind: 'reopen'; readonly reason: string }

/** The steps that can be taken next, in order. */
export function nextActions(alert: Alert): readonly AlertAction['kind'][] {
  if (alert.closed) return ['reopen']
  if (!alert.acknowledged) return ['acknowledge']
  return alert.verified ? ['verify', 'close'] : ['verify']
}

/**
 * What a step makes of an alert, or why it cannot be taken. Nothing is closed that nobody verified, and nothing is
 * verified that nobody took up; what is said must be said in words. A level that is still reached may be closed, by
 * someone who says why: closing changes nothing in the ground, and it goes on being shown as reached.
 */
export function takeAction(alert: Alert, action: AlertAction): Outcome<AlertHappening> {
  if (!nextActions(alert).includes(action.kind)) return reject(outOfTurn(alert, action.kind))
  switch (action.kind) {
    case 'acknowledge':
      return accept({ kind: 'acknowledged', note: action.note.trim() })
    case 'verify':
      return inWords('note', action.note, {
        kind: 'verified',
        finding: action.finding,
        note: action.note.trim(),
      })
    case 'close':
      if (isStillReached(alert) && action.reason.trim().length < 20)
        return reject({
          code: 'still-reached',
          column: 'reason',
          value: action.reason,
          expected: 'a whole sentence',
          message:
            'The level is still reached. Say in a sentence why the response ends all the same, and on whose decision.',
        })
      return inWords('reason', action.reason, { kind: 'closed', reason: action.reason.trim() })
    case 'reopen':
      return inWords('reason', action.reason, { kind: 'reopened', reason: action.reason.trim() })
  }
}

function inWords(column: string, said: string, happening: AlertHappening): Outcome<AlertHappening> {
  if (said.trim().length >= 3) return accept(happening)
  return reject({
    code: 'words-missing',
    column,
    value: said,
    message: 'Say what was found or why, in words: whoever reads the record later has nothing else.',
  })
}

function outOfTurn(alert: Alert, kind: AlertAction['kind']) {
  const done = { acknowledge: 'acknowledged', verify: 'verified', close: 'closed', reopen: 'reopened' }[kind]
  const state = alert.state
  const next = nextActions(alert).join(' or ')
  return {
    code: 'step-out-of-turn',
    value: kind,
    expected: next,
    message: `Alert ${alert.alert} is ${state} and cannot be ${done} now; what comes next is to ${next}. Somebody may have acted meanwhile: look at its record.`,
  }
}
