import { describe, expect, it } from 'vitest'
import { alertOf, alertsOf, isStillReached } from '#domain/alerts/alert.ts'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import { attempted, eventsOf, heldEpisode, raised } from '../../support/alert-events.ts'

const acknowledged: AlertHappening = { kind: 'acknowledged', note: 'going there' }
const verified: AlertHappening = { kind: 'verified', finding: 'movement', note: 'levelled again' }
const closed: AlertHappening = { kind: 'closed', reason: 'wall braced' }
const reopened: AlertHappening = { kind: 'reopened', reason: 'moving again' }
const after = (...happenings: readonly AlertHappening[]) => alertOf(eventsOf(1, raised(), ...happenings))

describe('an alert after its events', () => {
  // Order after the state machine of the issue: raised → delivered → acknowledged → verified → closed.
  it.each<[string, readonly AlertHappening[]]>([
    ['raised', []],
    ['raised', [attempted('failed'), attempted('not-set-up')]],
    ['delivered', [attempted('failed'), attempted('delivered')]],
    ['acknowledged', [acknowledged]],
    ['acknowledged', [acknowledged, attempted('delivered')]],
    ['verified', [attempted('delivered'), acknowledged, verified]],
    ['closed', [acknowledged, verified, closed]],
    ['raised', [acknowledged, verified, closed, reopened]],
    ['delivered', [attempted('delivered'), acknowledged, verified, closed, reopened]],
  ])('is %s', (state, happenings) => {
    expect(after(...happenings).state).toBe(state)
  })

  it('is changed by no step out of turn, whoever recorded it', () => {
    expect(after(verified, closed, reopened)).toMatchObject({ state: 'raised', verified: null, closed: null })
    expect(after(acknowledged, closed).state).toBe('acknowledged')
    expect(after(acknowledged, verified, closed, verified)).toMatchObject({
      state: 'closed',
      verified: { atEpochMs: 2000 },
    })
  })

  it('keeps who took it up first, and the last finding before it is closed', () => {
    const other: AlertHappening = { kind: 'verified', finding: 'false', note: 'the mark was hit' }
    const alert = after(acknowledged, { ...acknowledged, note: 'me too' }, verified, other)
    expect(alert.acknowledged).toEqual({ by: 'Ada Marsh', atEpochMs: 1000, note: 'going there' })
    expect(alert.verified).toMatchObject({ finding: 'false', atEpochMs: 4000 })
  })

  it('waits anew for somebody once it was opened again', () => {
    const escalated: AlertHappening = {
      kind: 'escalated',
      step: 2,
      round: 1,
      because: 'not-acknowledged',
      takenAtEpochMs: 0,
      recipients: ['ben'],
    }
    expect(after(escalated)).toMatchObject({
      escalation: { step: 2, recipients: ['ben'], atEpochMs: 1000 },
      openedAtEpochMs: 0,
    })
    const again = after(escalated, acknowledged, verified, closed, reopened)
    expect(again).toMatchObject({ escalation: null, openedAtEpochMs: 5000, raisedAtEpochMs: 0 })
  })

  it('is unreachable until a message is handed over or somebody takes it up', () => {
    const unreachable: AlertHappening = { kind: 'unreachable', duty: 'monitoring' }
    expect(after(unreachable, unreachable).unreachableSinceEpochMs).toBe(1000)
    expect(after(unreachable, attempted('failed')).unreachableSinceEpochMs).toBe(1000)
    expect(after(unreachable, attempted('delivered')).unreachableSinceEpochMs).toBeNull()
    expect(after(unreachable, acknowledged).unreachableSinceEpochMs).toBeNull()
  })

  it('is held back until something is sent', () => {
    const heldBack: AlertHappening = { kind: 'held-back', suppression: 'night works', untilEpochMs: 9e6 }
    expect(after(heldBack).heldBack).toEqual({ suppression: 'night works', untilEpochMs: 9e6 })
    expect(after(heldBack, attempted('failed')).heldBack).toBeNull()
  })

  it('says whether the level is still reached, as far as readings tell', () => {
    expect(isStillReached(after())).toBe(true)
    const left = heldEpisode(0, { leftAtEpochMs: 5, leftBecause: 'value' })
    expect(isStillReached(after({ kind: 'extent-changed', episode: left }))).toBe(false)
    expect(isStillReached(after({ kind: 'not-borne-out' }))).toBe(false)
    expect(
      isStillReached(after({ kind: 'not-borne-out' }, { kind: 'borne-out-again', episode: heldEpisode(1) })),
    ).toBe(true)
    const drill = { kind: 'drill', duty: 'monitoring', reason: 'monthly' } as const
    expect(
      isStillReached(
        alertOf(eventsOf(1, { kind: 'raised', cause: drill, late: false, untoldBecause: null })),
      ),
    ).toBe(false)
  })

  it('is made of its own events, however those of others lie between', () => {
    const one = eventsOf(1, raised(), acknowledged)
    const other = eventsOf(2, raised(), attempted('delivered'))
    const [first, second] = alertsOf([one[0], other[0], other[1], one[1]].flatMap((event) => event ?? []))
    expect(first).toEqual(alertOf(one))
    expect(second).toEqual(alertOf(other))
  })
})
