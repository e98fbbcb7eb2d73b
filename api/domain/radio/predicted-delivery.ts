import type { SpreadingFactor } from '../site/vocabulary.ts'
import { normalQuantile } from '../statistics/normal-quantile.ts'
import { studentQuantile, studentTail } from '../statistics/student-t.ts'
import { type DeliveryCurve, deliveredAt } from './delivery-curve.ts'
import { linkMarginDb, type RadioTerms } from './receiver-sensitivity.ts'
import type { PredictedSignal } from './signal-prediction.ts'

export interface PredictedDelivery {
  readonly spreadingFactor: SpreadingFactor
  readonly signalDbm: number
  readonly marginDb: number
  /** 90 % prediction interval of the margin. */
  readonly marginInterval: { readonly low: number; readonly high: number }
  /** Share of packets at the margin predicted, 0 to 1: as likely more as less. */
  readonly middleShare: number
  /** Mean share over all that the margin may be, 0 to 1: rare deep losses weigh in, so it may lie below the interval. */
  readonly share: number
  /** Share delivered at the ends of the margin's interval. */
  readonly interval: { readonly low: number; readonly high: number }
  /** Chance that the link delivers at least the wanted share. */
  readonly chanceOfWanted: number
}

const nodes = 40
const quantiles = new Map<number, readonly number[]>()

/** Middles of equal shares of the distribution: means over it are means over these. */
function nodesOf(degreesOfFreedom: number): readonly number[] {
  const known = quantiles.get(degreesOfFreedom)
  if (known) return known
  const made = Array.from({ length: nodes }, (_, place) => quantile((place + 0.5) / nodes, degreesOfFreedom))
  quantiles.set(degreesOfFreedom, made)
  return made
}

const quantile = (probability: number, degreesOfFreedom: number) =>
  Number.isFinite(degreesOfFreedom)
    ? studentQuantile(probability, degreesOfFreedom)
    : normalQuantile(probability)

/** What a predicted signal delivers at a spreading factor: share, its 90 % interval and the chance of a wanted share. */
export function predictDelivery(
  signal: PredictedSignal,
  spreadingFactor: SpreadingFactor,
  curve: DeliveryCurve,
  terms: RadioTerms,
  wantedShare: number,
): PredictedDelivery {
  const marginDb = linkMarginDb(signal.signalDbm, spreadingFactor, terms)
  const of = nodesOf(signal.degreesOfFreedom)
  const share =
    of.reduce((sum, node) => sum + deliveredAt(curve, marginDb + node * signal.spreadDb), 0) / nodes
  const half = ninety(signal.degreesOfFreedom) * signal.spreadDb
  const neededDb = curve.halfAtDb + curve.widthDb * normalQuantile(wantedShare)
  return {
    spreadingFactor,
    signalDbm: signal.signalDbm,
    marginDb,
    marginInterval: { low: marginDb - half, high: marginDb + half },
    middleShare: deliveredAt(curve, marginDb),
    share,
    interval: { low: deliveredAt(curve, marginDb - half), high: deliveredAt(curve, marginDb + half) },
    chanceOfWanted: studentTail((neededDb - marginDb) / signal.spreadDb, signal.degreesOfFreedom),
  }
}

const ninetyOf = new Map<number, number>()

function ninety(degreesOfFreedom: number): number {
  const known = ninetyOf.get(degreesOfFreedom)
  if (known !== undefined) return known
  const made = quantile(0.95, degreesOfFreedom)
  ninetyOf.set(degreesOfFreedom, made)
  return made
}
