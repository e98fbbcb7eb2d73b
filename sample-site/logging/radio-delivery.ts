import { hourMs } from '../models/programme.ts'
import { deliveredShare, signalDbm } from '../models/radio.ts'
import { openRandomStream } from '../random.ts'
import type { Scans } from './logger-clock.ts'
import type { Place, Records } from './read-records.ts'

/** When each scan reached the gateway: UTC epoch milliseconds, NaN for a packet lost on the air. */
export type Receipts = Float64Array

/** Loggers that send every packet twice. */
const repeating = new Set(['LG-05', 'LG-06', 'LG-17', 'LG-18'])
/** LG-19 saves its cells: four scans go out together on the hour. */
const scansAnHour = new Set(['LG-19'])

export function sendByRadio(logger: string, scans: Scans, records: Records): Receipts {
  const random = openRandomStream(`radio of ${logger}`)
  const place = records.placeOfPoint.get(logger) as Place
  const height = Number(records.loggers.get(logger)?.antennaHeightMetres)
  const metres = Math.min(
    ...records.gateways.map((gateway) =>
      Math.hypot(
        gateway.eastingMetres - place.eastingMetres,
        gateway.northingMetres - place.northingMetres,
        gateway.levelMetres - place.levelMetres - height,
      ),
    ),
  )
  const together = scansAnHour.has(logger)
  const receipts = new Float64Array(scans.trueEpochMs.length)
  let packet = Number.NaN
  let receivedAt = Number.NaN
  scans.trueEpochMs.forEach((taken, i) => {
    const sentAt = together ? Math.ceil(taken / hourMs) * hourMs : taken
    if (sentAt !== packet) {
      packet = sentAt
      const share = deliveredShare(signalDbm(logger, metres, sentAt))
      const tries = repeating.has(logger) ? 2 : 1
      receivedAt = Number.NaN
      for (let sent = 0; sent < tries; sent++) {
        const delay = 1000 * Math.round(4 + 50 * random.uniform() + 60 * sent)
        if (random.uniform() < share && Number.isNaN(receivedAt)) receivedAt = sentAt + delay
      }
    }
    receipts[i] = receivedAt
  })
  return receipts
}
