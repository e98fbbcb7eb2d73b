import { accept, type Outcome, reject } from '../outcome.ts'
import { formatInstant } from '../site/instant-text.ts'
import type { SiteModel } from '../site/site.ts'
import type { ReadingBody } from './field-bodies.ts'

/** How far a reading may lie ahead of the present: clocks of tablets and servers are never quite together. */
export const readingAheadMinutes = 10

const earliestEpochMs = Date.UTC(1990, 0, 1)

/** Logger and channel on whose record a reading by hand belongs. */
export interface ReadingPlace {
  readonly logger: string
  readonly channel: string
}

/**
 * The channel that read a sensor at the instant of a reading by hand: a crew's, where it is read by hand alone, else
 * that of the logger it was wired to. `presentEpochMs` is the site's present when the reading arrived.
 */
export function placeOfReading(
  model: Pick<SiteModel, 'sensors' | 'wiring'>,
  { sensor, atEpochMs }: ReadingBody,
  presentEpochMs: number,
): Outcome<ReadingPlace> {
  if (atEpochMs > presentEpochMs + readingAheadMinutes * 60_000)
    return reject({
      code: 'time-in-future',
      column: 'atEpochMs',
      value: formatInstant(atEpochMs),
      message: `It would have been read at ${formatInstant(atEpochMs)}, and it arrived at ${formatInstant(presentEpochMs)}. Put the device's clock right, then write the reading anew with its true instant; this one stays on record as it is.`,
    })
  if (atEpochMs < earliestEpochMs)
    return reject({
      code: 'time-before-1990',
      column: 'atEpochMs',
      value: formatInstant(atEpochMs),
      message: `It would have been read at ${formatInstant(atEpochMs)}, before 1990. Put the device's clock right, then write the reading anew; this one stays on record as it is.`,
    })
  if (!model.sensors.some(({ id }) => id === sensor))
    return reject({
      code: 'sensor-unknown',
      column: 'sensor',
      value: sensor,
      message: `There is no sensor ${sensor} in the register. The reading is taken once the sensor is registered and wired; until then it stands here.`,
    })
  const row = model.wiring.find(
    (one) =>
      one.sensor === sensor && one.fromAt <= atEpochMs && (one.untilAt === null || atEpochMs < one.untilAt),
  )
  return row
    ? accept({ logger: row.logger, channel: row.channel })
    : reject({
        code: 'sensor-not-wired',
        column: 'sensor',
        value: sensor,
        message: `No channel reads ${sensor} at ${formatInstant(atEpochMs)}, by hand or by logger. Wire it from an instant before that; then the reading is taken, and until then it stands here.`,
      })
}
