import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Alert, alertsOf } from '#domain/alerts/alert.ts'
import type { AlertEvent } from '#domain/alerts/alert-event.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { reconcileEpisodes } from '#domain/alerts/reconcile-episodes.ts'
import { heldEpisode, triggerLevel } from '../../support/alert-events.ts'

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
