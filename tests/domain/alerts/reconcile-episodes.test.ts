import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Alert, alertOf, alertsOf } from '#domain/alerts/alert.ts'
import type { AlertEvent, AlertHappening } from '#domain/alerts/alert-event.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { reconcileEpisodes } from '#domain/alerts/reconcile-episodes.ts'
import { isTold } from '#domain/alerts/telling.ts'
import { eventsOf, heldEpisode, raised, triggerLevel } from '../../support/alert-events.ts'

const level = triggerLevel()
const left = (from: number, until: number) =>
  heldEpisode(from, { leftAtEpochMs: until, leftBecause: 'value' })

/** Events of all rounds, each of which brings the alerts in line with the episodes known by then. */
function rounds(...known: readonly (readonly Episode[])[]) {
  const events: AlertEvent[] = []
  let alerts: readonly Alert[] = []
  for (const [round, episodes] of known.entries()) {
    const happened = reconcileEpisodes({
      level,
      episodes,
      alerts,
      judgeArrival: () => ({ late: round > 0, untoldBecause: null }),
    })
    let raised = alerts.length
    events.push(
      ...happened.map(({ alert, happening }) => ({
        alert: alert ?? ++raised,
        atEpochMs: round,
        by: null,
        happening,
      })),
    )
    alerts = alertsOf(events)
  }
  return { alerts, kinds: events.map(({ happening }) => happening.kind), events }
}

describe('alerts brought in line with episodes', () => {
  it('raises what held, and nothing that did not', () => {
    const { alerts, kinds } = rounds([
      heldEpisode(5, { heldAtEpochMs: null, leftAtEpochMs: 6 }),
      left(10, 20),
    ])
    expect(kinds).toEqual(['raised'])
    expect(alerts[0]?.episode).toEqual(left(10, 20))
  })

  it('records nothing where nothing changed but the peak', () => {
    const peak = { ...left(10, 20), peakValue: 40 }
    expect(rounds([left(10, 20)], [left(10, 20)], [peak]).kinds).toEqual(['raised'])
  })

  it('carries an earlier crossing found later by the alert that there is', () => {
    const { alerts, kinds } = rounds([heldEpisode(10)], [left(4, 30)])
    expect(kinds).toEqual(['raised', 'extent-changed'])
    expect(alerts[0]).toMatchObject({ episode: left(4, 30), late: false })
  })

  it('gives two that turn out to be one to the older, and leaves the other on record', () => {
    const { alerts } = rounds([left(10, 20), heldEpisode(30)], [heldEpisode(10)])
    expect(alerts.map(({ bornOut, episode }) => [bornOut, episode?.crossedAtEpochMs])).toEqual([
      [true, 10],
      [false, 30],
    ])
  })

  it('raises the second of one that turns out to be two', () => {
    const { alerts } = rounds([heldEpisode(10)], [left(10, 15), heldEpisode(30)])
    expect(alerts.map(({ late, episode }) => [late, episode?.crossedAtEpochMs])).toEqual([
      [false, 10],
      [true, 30],
    ])
  })

  it('says so when one is not borne out, and when it is after all', () => {
    expect(rounds([left(10, 20)], [], [left(11, 21)]).kinds).toEqual([
      'raised',
      'not-borne-out',
      'borne-out-again',
    ])
  })

  const answered: readonly AlertHappening[] = [
    { kind: 'acknowledged', note: 'going there' },
    { kind: 'verified', finding: 'false', note: 'the old calibration' },
    { kind: 'closed', reason: 'not reached by the new calibration' },
  ]
  const next = (alert: Alert, episodes: readonly Episode[], untoldBecause: string | null = null) =>
    reconcileEpisodes({
      level,
      episodes,
      alerts: [alert],
      judgeArrival: () => ({ late: false, untoldBecause }),
    }).map(({ happening }) => happening)
  const after = (...happenings: readonly AlertHappening[]) => alertOf(eventsOf(1, ...happenings))

  it('opens a closed one again where it is borne out after all and the level is still reached', () => {
    const closed = after(raised(heldEpisode(10)), { kind: 'not-borne-out' }, ...answered)
    const happened = next(closed, [heldEpisode(10)])
    expect(happened.map(({ kind }) => kind)).toEqual(['borne-out-again', 'reopened'])
    const open = after(raised(heldEpisode(10)), { kind: 'not-borne-out' }, ...answered, ...happened)
    expect(isTold(open)).toBe(true)
    expect(next(open, [heldEpisode(10)])).toEqual([])
  })

  it('opens a closed one again where the level turns out not to have been left', () => {
    const closed = after(raised(left(10, 20)), ...answered)
    expect(next(closed, [heldEpisode(10)]).map(({ kind }) => kind)).toEqual(['extent-changed', 'reopened'])
    expect(next(closed, [left(10, 30)]).map(({ kind }) => kind)).toEqual(['extent-changed'])
  })

  it('leaves one closed that somebody closed while the level was reached', () => {
    const closed = after(raised(heldEpisode(10)), ...answered)
    expect(next(closed, [heldEpisode(4)]).map(({ kind }) => kind)).toEqual(['extent-changed'])
  })

  it('has one told of which nobody was, where the level turns out to be still reached', () => {
    const untold = after(raised(left(10, 20), { untoldBecause: 'Its readings came long ago.' }))
    const happened = next(untold, [heldEpisode(10)])
    expect(happened.map(({ kind }) => kind)).toEqual(['extent-changed', 'reopened'])
    expect(isTold(after(raised(left(10, 20), { untoldBecause: 'old' }), ...happened))).toBe(true)
    expect(next(untold, [heldEpisode(10)], 'The data are invented.').map(({ kind }) => kind)).toEqual([
      'extent-changed',
    ])
  })

  it('has one told that a person opens again, although nobody was told at first', () => {
    const untold = raised(left(10, 20), { untoldBecause: 'Its readings came long ago.' })
    expect(isTold(after(untold, ...answered, { kind: 'reopened', reason: 'moving again' }))).toBe(true)
  })

  /** Stretches apart from each other, the last perhaps without end. */
  const episodes = fc
    .uniqueArray(fc.integer({ min: 0, max: 60 }), { maxLength: 9 })
    .map((instants) => instants.toSorted((one, other) => one - other))
    .map((instants) =>
      instants.flatMap((from, i) => {
        if (i % 2 === 1) return []
        const until = instants[i + 1]
        return [until === undefined ? heldEpisode(from) : left(from, until)]
      }),
    )

  it('leaves borne out exactly the episodes that held, whatever was known before', () => {
    fc.assert(
      fc.property(fc.array(episodes, { minLength: 1, maxLength: 6 }), (known) => {
        const { alerts, events } = rounds(...known)
        const borneOut = alerts.filter(({ bornOut }) => bornOut).map(({ episode }) => episode)
        const byStart = (one: Episode | null, other: Episode | null) =>
          (one?.crossedAtEpochMs ?? 0) - (other?.crossedAtEpochMs ?? 0)
        expect(borneOut.toSorted(byStart)).toEqual(known.at(-1))
        // Once more changes nothing.
        expect(rounds(...known, known.at(-1) ?? []).events).toHaveLength(events.length)
      }),
      { seed: 20271026, numRuns: 300 },
    )
  })
})
