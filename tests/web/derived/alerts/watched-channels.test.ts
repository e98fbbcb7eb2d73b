import { expect, test } from 'vitest'
import { watchedChannels } from '../../../../web/derived/alerts/watched-channels.ts'
import { heldEpisode, triggerLevel } from '../../../support/alert-events.ts'
import { alertsDocumentOf, listedAlert } from '../../../support/listed-alerts.ts'
import { smallSite, state, stateMap } from '../../state/small-site.ts'

const site = {
  ...smallSite(),
  triggerLevels: [triggerLevel({ id: 'PZ-1A 1', series: 'PZ-1A/pore-pressure' })],
}

test('reached is whatever says so: an alert, a crossing that goes on, the latest state; once a channel', () => {
  const left = { leftAtEpochMs: 5, leftBecause: 'value' as const }
  const document = alertsDocumentOf(
    [
      listedAlert(1, [], { point: 'SP-1' }),
      listedAlert(2, [], { point: 'SP-1', level: { level: 2 } }),
      listedAlert(3, [], { point: 'PZ-1B', level: { series: 'PZ-1B/pore-pressure' }, episode: left }),
    ],
    0,
    { crossings: [heldEpisode(0, { level: 'PZ-1A 1', heldAtEpochMs: null })], watchedSeries: 6 },
  )
  expect(watchedChannels(document, site, stateMap()).reached).toBe(2)
  expect(watchedChannels(document, site, stateMap([state(4, { level: 1 })])).reached).toBe(3)
})

test('a channel without current data is unknown, whatever it last said', () => {
  const unknown = [
    { series: 3, lastEpochMs: 7000, critical: true },
    { series: 4, lastEpochMs: null, critical: false },
  ]
  const document = alertsDocumentOf([listedAlert(1, [], { point: 'SP-1' })], 0, {
    unknown,
    watchedSeries: 6,
    unreadSeries: 3,
  })
  // Three more have a level and are read by nothing.
  expect(watchedChannels(document, site, null)).toEqual({
    watched: 9,
    unread: 3,
    unknown: 5,
    unknownCritical: 1,
    neverRead: 1,
    oldestEpochMs: 7000,
    reached: 0,
  })
})
