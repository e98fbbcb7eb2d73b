import { spreadingFactors } from '../site/vocabulary.ts'
import type { LinkSpot } from './link-spots.ts'
import { fitOfGateway } from './network-fit.ts'
import type { NetworkModel } from './network-model.ts'
import { type PredictedDelivery, predictDelivery } from './predicted-delivery.ts'
import { type NamedAntenna, type RadioPath, type RadioSite, radioPath } from './radio-site.ts'
import { type PredictedSignal, predictSignal } from './signal-prediction.ts'
import type { SpotPath } from './spot-paths.ts'

/** The link of a logger to one gateway, now or as planned. */
export interface LoggerLink {
  readonly gateway: string
  readonly path: RadioPath
  readonly signal: PredictedSignal
  /** Test that the signal was carried on from; null: from the fit alone. */
  readonly carriedFrom: string | null
  readonly deliveries: readonly PredictedDelivery[]
}

/** From one day to another a link that nothing was put into changes by about so much, dB: stated, not found. */
export const dayToDayDb = 3

/**
 * Links of a logger to every gateway, the strongest first. The gateway that heard its last test best: the signal measured then,
 * carried on by what distance and edges have changed since. Every other: by the fit, less what the logger lost against the
 * fit in that test (what stands beside it takes from all), and no stronger at the time of the test than what was heard best.
 * Where nothing came through, the signal that the slowest factor needs stands for it, and what is said is at most so.
 * Without a test: as the fit says.
 */
export function linksOfLogger(
  logger: NamedAntenna,
  model: NetworkModel,
  /** As the tests were made. */
  known: RadioSite,
  /** As it is asked for: with a planned obstruction, or a gateway elsewhere. */
  asked: RadioSite,
  atEpochMs: number,
  wantedShare: number,
): readonly LoggerLink[] {
  const last = lastWithSignal(model.spots, logger.id)
  return asked.gateways
    .map((gateway): LoggerLink => {
      const path = radioPath(logger, gateway, asked, atEpochMs)
      const predicted = predictSignal(fitOfGateway(model.fit, gateway.id), path)
      const signal = last ? carriedOn(last, gateway, predicted, logger, model, known) : predicted
      return {
        gateway: gateway.id,
        path,
        signal,
        carriedFrom: last && last.heardBy === gateway.id ? last.test : null,
        deliveries: spreadingFactors.map((factor) =>
          predictDelivery(signal, factor, model.curve, asked.terms, wantedShare),
        ),
      }
    })
    .toSorted((one, other) => other.signal.signalDbm - one.signal.signalDbm)
}

/** Last test of a logger that says something of its signal, if only that it was too weak to be heard. */
export const lastWithSignal = (spots: readonly SpotPath[], logger: string): SpotPath | undefined =>
  spots.findLast((spot) => spot.logger === logger && spot.signalDbm !== null)

/** False: nothing came through, and its signal is a bound from above. */
export const wasHeard = ({ counts }: Pick<LinkSpot, 'counts'>): boolean =>
  counts.some(({ received }) => received > 0)

function carriedOn(
  spot: SpotPath,
  gateway: NamedAntenna,
  predicted: PredictedSignal,
  logger: NamedAntenna,
  { fit }: NetworkModel,
  known: RadioSite,
): PredictedSignal {
  const measured = spot.signalDbm as number
  const heardThen = predictSignal(fitOfGateway(fit, spot.heardBy), spot.path).signalDbm
  if (spot.heardBy === gateway.id) {
    const change = predicted.signalDbm - heardThen
    return Math.abs(change) < 0.5 && wasHeard(spot)
      ? { signalDbm: measured + change, spreadDb: dayToDayDb, degreesOfFreedom: Number.POSITIVE_INFINITY }
      : { ...predicted, signalDbm: measured + change }
  }
  const lossy = predicted.signalDbm + Math.min(0, measured - heardThen)
  const stood = known.gateways.find(({ id }) => id === gateway.id)
  if (!stood) return { ...predicted, signalDbm: lossy }
  const pathThen = radioPath(logger, stood, known, spot.atEpochMs)
  const change = predicted.signalDbm - predictSignal(fitOfGateway(fit, gateway.id), pathThen).signalDbm
  return { ...predicted, signalDbm: Math.min(lossy, measured + change) }
}
