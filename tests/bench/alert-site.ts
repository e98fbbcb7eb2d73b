import type { Layout } from '#contract/layout.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { intakeLogger, intakeSite, wideLayout } from '../support/intake-site.ts'
import { levelFor } from '../support/level-for.ts'
import { watchedSite } from '../support/watched-site.ts'

export const loggers = 1000
export const channelsEach = 5
export const firstEpochMs = Date.UTC(2027, 5, 1)
export const stepMs = 5 * 60_000

const loggerId = (logger: number) => `LG-${String(logger).padStart(4, '0')}`
const pointId = (logger: number, channel: number) => `P-${logger}-${channel}`

/** Five thousand settlements, two levels on each. */
export function benchSite(): SiteModel {
  const like = watchedSite()
  const settlement = like.sensors.find(({ id }) => id === 'SP-1/settlement')
  const instrument = like.instruments.find(({ id }) => id === 'SP-1')
  const point = like.points.find(({ id }) => id === 'SP-1')
  const calibration = like.calibrations.find(({ sensor }) => sensor === 'SP-1/settlement')
  const step = like.calibrationSteps.find(({ calibration: of }) => of === calibration?.id)
  if (!settlement || !instrument || !point || !calibration || !step)
    throw new Error('no settlement to be like')
  const places = Array.from({ length: loggers * channelsEach }, (_, at) => ({
    logger: Math.floor(at / channelsEach),
    channel: at % channelsEach,
  }))
  const each = <T>(make: (place: { logger: number; channel: number }, id: string) => T) =>
    places.map((place) => make(place, pointId(place.logger, place.channel)))
  return {
    ...intakeSite(
      Array.from({ length: loggers }, (_, at) => intakeLogger(loggerId(at), `S${at}`, channelsEach)),
    ),
    facts: { ...like.facts, id: 'bench-quay' },
    instruments: each((_, id) => ({ ...instrument, id, location: id })),
    points: each((_, id) => ({ ...point, id, instrument: id })),
    sensors: each((_, id) => ({ ...settlement, id: `${id}/settlement`, point: id, intervalMinutes: 5 })),
    wiring: each(({ logger, channel }, id) => ({
      logger: loggerId(logger),
      channel: String(channel + 1),
      sensor: `${id}/settlement`,
      fromAt: 0,
      untilAt: null,
      reason: null,
    })),
    calibrations: each((_, id) => ({ ...calibration, id, sensor: `${id}/settlement` })),
    calibrationSteps: each((_, id) => ({ ...step, calibration: id })),
    triggerLevels: places.flatMap(({ logger, channel }) =>
      [1, 2].map((level) =>
        levelFor({
          id: `${logger} ${channel} ${level}`,
          series: `${pointId(logger, channel)}/settlement`,
          level,
          value: 10 * level,
        }),
      ),
    ),
  }
}

/** Rises over level 1 now and then, over level 2 seldom; each channel at times of its own. */
const settledBy = (logger: number, channel: number, step: number): number =>
  (logger * 7 + channel * 3 + step) % 97 === 0 ? (logger % 5 === 0 ? 25 : 12) : 3 + ((logger + step) % 5)

export const isAbove = (logger: number, channel: number, step: number, level: number): boolean =>
  settledBy(logger, channel, step) >= 10 * level

/** What a logger sends at a step, as a file. */
export function rowOf(logger: number, step: number): string {
  const channels = Array.from({ length: channelsEach }, (_, channel) => channel)
  const time = new Date(firstEpochMs + step * stepMs).toISOString().slice(0, 19).replace('T', ' ')
  return [
    ['time', ...channels.map((channel) => `${loggerId(logger)}/${channel + 1}`)].join(','),
    [time, ...channels.map((channel) => settledBy(logger, channel, step))].join(','),
    '',
  ].join('\n')
}

export const benchLayout: Layout = { ...wideLayout, id: 'bench', fileNamePattern: '^logger-\\d+\\.csv$' }
