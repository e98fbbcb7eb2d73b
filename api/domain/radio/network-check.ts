import { wilsonInterval } from '../statistics/wilson-interval.ts'
import { fitNetwork, fitOfGateway } from './network-fit.ts'
import type { NetworkModel } from './network-model.ts'
import { predictDelivery } from './predicted-delivery.ts'
import type { RadioSite } from './radio-site.ts'
import { predictSignal } from './signal-prediction.ts'
import { blocksOfSpots } from './spot-blocks.ts'
import type { SpotPath } from './spot-paths.ts'

/** How well tests that a fit had not seen are met by it. */
export interface NetworkCheck {
  readonly blocks: number
  /** Measured spots that were predicted from the others. */
  readonly spots: number
  /** Of the signal at them, dB: with edges, without edges, and by the mean of the other spots alone. */
  readonly rootMeanSquareDb: number
  readonly withoutEdgesDb: number
  readonly byMeanDb: number
  /** Share of the squared deviation from the mean that distance and edges account for; negative: none, and worse. */
  readonly skill: number
  /** Share of measured spots within the 90 % prediction interval. */
  readonly withinInterval: number
  readonly reliability: readonly ReliabilityRow[]
}

/** Tests for which about so much was predicted, and what came through. */
export interface ReliabilityRow {
  readonly low: number
  readonly high: number
  readonly tests: number
  readonly sent: number
  readonly received: number
  readonly predictedShare: number
  /** 95 % Wilson interval of the share observed. */
  readonly interval: { readonly low: number; readonly high: number }
}

/** Spots nearer to one another than this share what stands beside them. */
export const blockMetres = 12

const bins = [0, 0.5, 0.8, 0.95, 0.99, 1] as const

/** Leaves out each block of close spots in turn, fits the rest and predicts the block. */
export function checkNetwork(
  { spots, curve }: NetworkModel,
  site: RadioSite,
  wantedShare: number,
): NetworkCheck {
  const blocks = blocksOfSpots(spots, blockMetres)
  const gateways = site.gateways.map(({ id }) => id)
  const seen = blocks.flatMap((block) => {
    const rest = spots.filter((spot) => !block.includes(spot))
    const [full, plain] = [fitNetwork(gateways, rest), fitNetwork(gateways, rest, false)]
    if (!full.ok || !plain.ok) return []
    const heard = rest.flatMap(({ signalDbm, atMost }) => (signalDbm === null || atMost ? [] : signalDbm))
    const mean = heard.reduce((sum, one) => sum + one, 0) / heard.length
    return block.map((spot) => {
      const signal = predictSignal(fitOfGateway(full.value, spot.heardBy), spot.path)
      const bare = predictSignal(fitOfGateway(plain.value, spot.heardBy), { ...spot.path, lossDb: 0 })
      const deliveries = spot.counts.map((count) => ({
        ...count,
        predicted: predictDelivery(signal, count.spreadingFactor, curve, site.terms, wantedShare),
      }))
      return { spot, signal, bare, mean, deliveries }
    })
  })
  const measured = seen.filter(({ spot }) => spot.signalDbm !== null && !spot.atMost)
  const rms = (of: (one: (typeof seen)[number]) => number) =>
    Math.sqrt(
      measured.reduce((sum, one) => sum + ((one.spot.signalDbm as number) - of(one)) ** 2, 0) /
        Math.max(1, measured.length),
    )
  const [full, byMean] = [rms(({ signal }) => signal.signalDbm), rms(({ mean }) => mean)]
  const within = measured.filter(({ spot, deliveries }) => liesWithin(spot, deliveries))
  return {
    blocks: blocks.length,
    spots: measured.length,
    rootMeanSquareDb: full,
    withoutEdgesDb: rms(({ bare }) => bare.signalDbm),
    byMeanDb: byMean,
    skill: 1 - (full / byMean) ** 2,
    withinInterval: within.length / Math.max(1, measured.length),
    reliability: reliabilityOf(seen.flatMap(({ deliveries }) => deliveries)),
  }
}

type Delivery = {
  readonly sent: number
  readonly received: number
  readonly predicted: ReturnType<typeof predictDelivery>
}

function liesWithin({ signalDbm }: SpotPath, deliveries: readonly Delivery[]): boolean {
  const predicted = deliveries[0]?.predicted
  if (!predicted || signalDbm === null) return false
  const half = predicted.marginInterval.high - predicted.marginDb
  // Margins differ from signals by the same sensitivity on both sides.
  const mean = predicted.signalDbm
  return Math.abs(signalDbm - mean) <= half
}

function reliabilityOf(deliveries: readonly Delivery[]): readonly ReliabilityRow[] {
  return bins.slice(1).flatMap((high, place) => {
    const low = bins[place] as number
    const inBin = deliveries.filter(
      ({ predicted }) => predicted.share >= low && (predicted.share < high || high === 1),
    )
    if (inBin.length === 0) return []
    const sum = (of: (one: Delivery) => number) => inBin.reduce((total, one) => total + of(one), 0)
    const [sent, received] = [sum((one) => one.sent), sum((one) => one.received)]
    return {
      low,
      high,
      tests: inBin.length,
      sent,
      received,
      predictedShare: sum((one) => one.sent * one.predicted.share) / sent,
      interval: wilsonInterval(received, sent),
    }
  })
}
