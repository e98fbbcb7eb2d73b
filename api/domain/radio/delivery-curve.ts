import { maximise } from '../statistics/maximise.ts'
import { normalTail } from '../statistics/normal-tail.ts'

/** Share of packets that arrive as the margin of the mean signal grows: normal, half of them at `halfAtDb`. */
export interface DeliveryCurve {
  readonly halfAtDb: number
  readonly widthDb: number
  /** Tests with partly delivered factors that it was found from; null: too few, and the usual curve is taken. */
  readonly partlyDelivered: number | null
}

/** Half at the stated sensitivity, and signals of single packets that scatter as they do where people walk about. */
export const usualCurve: DeliveryCurve = { halfAtDb: 0, widthDb: 4, partlyDelivered: null }

const fewestPartly = 5

export interface DeliveryCount {
  readonly marginDb: number
  readonly sent: number
  readonly received: number
}

/** 0 to 1. */
export const deliveredAt = ({ halfAtDb, widthDb }: DeliveryCurve, marginDb: number): number =>
  normalTail((halfAtDb - marginDb) / widthDb)

/**
 * Curve of delivery against margin by greatest binomial likelihood of tests whose signal is known. Only counts between
 * nothing and everything say where it bends: with fewer than 5 of them the usual curve is kept.
 */
export function fitDeliveryCurve(counts: readonly DeliveryCount[]): DeliveryCurve {
  const partly = counts.filter(({ sent, received }) => received > 0 && received < sent).length
  if (partly < fewestPartly) return usualCurve
  const likelihood = ([halfAtDb, logWidth]: readonly number[]) => {
    const curve = {
      halfAtDb: halfAtDb as number,
      widthDb: Math.exp(logWidth as number),
      partlyDelivered: partly,
    }
    return counts.reduce((sum, { marginDb, sent, received }) => {
      const share = Math.min(1 - 1e-9, Math.max(1e-9, deliveredAt(curve, marginDb)))
      return sum + received * Math.log(share) + (sent - received) * Math.log(1 - share)
    }, 0)
  }
  const [halfAtDb, logWidth] = maximise(likelihood, [0, Math.log(4)], [2, 0.4]) as [number, number]
  return { halfAtDb, widthDb: Math.exp(logWidth), partlyDelivered: partly }
}
