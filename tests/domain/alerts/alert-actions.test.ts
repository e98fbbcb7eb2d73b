import { describe, expect, it } from 'vitest'
import { alertOf } from '#domain/alerts/alert.ts'
import { type AlertAction, nextActions, takeAction } from '#domain/alerts/alert-actions.ts'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import { eventsOf, heldEpisode, raised } from '../../support/alert-events.ts'

const steps: readonly AlertHappening[] = [
  { kind: 'acknowledged', note: '' },
  { kind: 'verified', finding: 'movement', note: 'levelled again' },
  { kind: 'closed', reason: 'wall braced' },
]
const left = heldEpisode(0, { leftAtEpochMs: 5, leftBecause: 'value' })
/** An alert on which so many of the steps were taken. */
const at = (taken: number, episode = left) => alertOf(eventsOf(1, raised(episode), ...steps.slice(0, taken)))
const action: Record<AlertAction['kind'], AlertAction> = {
  acknowledge: { kind: 'acknowledge', note: ' ' },
  verify: { kind: 'verify', finding: 'false', note: 'the mark was hit ' },
  close: { kind: 'close', reason: 'braced' },
  reopen: { kind: 'reopen', reason: 'moving again' },
}

describe('steps', () => {
  it('come in their order, and no other is taken', () => {
    const inTurn = [['acknowledge'], ['verify'], ['verify', 'close'], ['reopen']]
    for (const [taken, kinds] of inTurn.entries()) {
      expect(nextActions(at(taken))).toEqual(kinds)
      for (const one of Object.values(action)) {
        const outcome = takeAction(at(taken), one)
        expect(outcome.ok).toBe(kinds.includes(one.kind))
        if (!outcome.ok)
          expect(outcome.issues[0]).toMatchObject({ code: 'step-out-of-turn', value: one.kind })
      }
    }
  })

  it('become events with what was said, trimmed', () => {
    expect(takeAction(at(0), action.acknowledge)).toEqual({
      ok: true,
      value: { kind: 'acknowledged', note: '' },
    })
    expect(takeAction(at(1), action.verify)).toEqual({
      ok: true,
      value: { kind: 'verified', finding: 'false', note: 'the mark was hit' },
    })
  })

  it.each([
    [1, { kind: 'verify', finding: 'false', note: ' ab ' }],
    [2, { kind: 'close', reason: '' }],
    [3, { kind: 'reopen', reason: '   ' }],
  ] as const)('need words (%i taken)', (taken, wordless) => {
    expect(takeAction(at(taken), wordless)).toMatchObject({ ok: false, issues: [{ code: 'words-missing' }] })
  })

  it('need a sentence to close what is still reached', () => {
    const reached = at(2, heldEpisode(0))
    expect(takeAction(reached, action.close)).toMatchObject({ issues: [{ code: 'still-reached' }] })
    const reason = 'Designer accepts 25 mm here, letter of 3 May.'
    expect(takeAction(reached, { kind: 'close', reason })).toEqual({
      ok: true,
      value: { kind: 'closed', reason },
    })
  })
})
