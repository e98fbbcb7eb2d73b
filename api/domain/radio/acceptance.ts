import { wilsonInterval } from '../statistics/wilson-interval.ts'
import { clopperPearsonInterval } from './clopper-pearson.ts'
import { packetsToSettle, type Settling, settlingSentence } from './packets-to-settle.ts'

export interface PacketCount {
  /** 7 to 12. */
  readonly spreadingFactor: number
  readonly sent: number
  readonly received: number
}

export interface DeliveredShare extends PacketCount {
  /** received / sent, 0 to 1. */
  readonly share: number
  /** 95 % Wilson interval of the share. */
  readonly interval: { readonly low: number; readonly high: number }
  /** 95 % Clopper–Pearson interval of the share: exact, and the wider. */
  readonly exactInterval: { readonly low: number; readonly high: number }
}

export interface CoverageVerdict {
  /** `impossible`: more is said to be received than was sent, so that the test says nothing. */
  readonly verdict: 'accepted' | 'not-accepted' | 'nothing-sent' | 'impossible'
  readonly rule: string
  readonly ruleSource: string
  /** One a spreading factor with packets sent, lowest first. */
  readonly shares: readonly DeliveredShare[]
  /** The one with the greatest share; of equals, the one with most packets, then the fastest. Null: none to judge. */
  readonly best: DeliveredShare | null
  /** Whether the interval of the best lies wholly at one half or above. */
  readonly certainOfHalf: boolean
  /** Further packets at the factor of the best that would settle on which side of one half it lies. Null: none to judge. */
  readonly settling: Settling | null
  /** Chance that a link which truly delivers 35 % would be accepted by this very test. */
  readonly chancePassingAt35Percent: number
  /** Whole sentences that must stand beside the verdict. */
  readonly cautions: readonly string[]
}

const fewPackets = 20

/**
 * Judges a coverage test by the trade's rule: at least half of the packets in any one spreading factor.
 * Rows of the same spreading factor are added up. The rule is common practice without a published source,
 * so the verdict carries what it does not say: the interval, and how easily a poor link passes. Where one row cannot be,
 * none is judged: entries of devices come here before anybody looked at them.
 */
export function judgeCoverageTest(rows: readonly PacketCount[]): CoverageVerdict {
  const impossible = rows.filter(({ sent, received }) => !(received >= 0 && received <= sent))
  const shares = impossible.length > 0 ? [] : sumBySpreadingFactor(rows)
  const best =
    shares.toSorted(
      (a, b) => b.share - a.share || b.sent - a.sent || a.spreadingFactor - b.spreadingFactor,
    )[0] ?? null
  const chance = chanceOfPassing(
    0.35,
    shares.map(({ sent }) => sent),
  )
  const settling = best === null ? null : packetsToSettle(best.received, best.sent)
  const certainOfHalf = best !== null && best.interval.low >= 0.5
  return {
    verdict:
      impossible.length > 0
        ? 'impossible'
        : best === null
          ? 'nothing-sent'
          : best.share >= 0.5
            ? 'accepted'
            : 'not-accepted',
    rule: 'At least half of the packets in any one spreading factor.',
    ruleSource: 'common practice, no published source',
    shares,
    best,
    certainOfHalf,
    settling,
    chancePassingAt35Percent: chance,
    cautions:
      best === null
        ? impossible.length > 0
          ? impossible.map(sentenceOfImpossible)
          : ['No packets were sent: the link is not tested.']
        : cautionsOf(best, shares, certainOfHalf, chance),
  }
}

const sentenceOfImpossible = ({ spreadingFactor, sent, received }: PacketCount) =>
  `${received} packets cannot have arrived of ${sent} sent at spreading factor ${spreadingFactor}: the test says nothing until one of the two is corrected.`

/**
 * Chance that at least half of the packets arrive in one or more of several independent tests, when each packet
 * arrives with probability `trueShare`. `sent`: packets in each test. Binomial; real losses come in bursts.
 */
export function chanceOfPassing(trueShare: number, sent: readonly number[]): number {
  return 1 - sent.reduce((failing, packets) => failing * (1 - chanceOfHalf(trueShare, packets)), 1)
}

function chanceOfHalf(trueShare: number, packets: number): number {
  if (packets <= 0) return 0
  if (trueShare <= 0 || trueShare >= 1) return trueShare >= 1 ? 1 : 0
  let logTerm = packets * Math.log1p(-trueShare)
  let sum = 0
  for (let received = 0; received <= packets; received++) {
    if (2 * received >= packets) sum += Math.exp(logTerm)
    logTerm += Math.log((packets - received) / (received + 1)) + Math.log(trueShare) - Math.log1p(-trueShare)
  }
  return Math.min(1, sum)
}

function sumBySpreadingFactor(rows: readonly PacketCount[]): readonly DeliveredShare[] {
  const counts = new Map<number, PacketCount>()
  for (const { spreadingFactor, sent, received } of rows) {
    const before = counts.get(spreadingFactor)
    counts.set(spreadingFactor, {
      spreadingFactor,
      sent: sent + (before?.sent ?? 0),
      received: received + (before?.received ?? 0),
    })
  }
  return [...counts.values()]
    .filter(({ sent }) => sent > 0)
    .toSorted((a, b) => a.spreadingFactor - b.spreadingFactor)
    .map((count) => ({
      ...count,
      share: count.received / count.sent,
      interval: wilsonInterval(count.received, count.sent),
      exactInterval: clopperPearsonInterval(count.received, count.sent),
    }))
}

function cautionsOf(
  best: DeliveredShare,
  shares: readonly DeliveredShare[],
  certainOfHalf: boolean,
  chance: number,
): readonly string[] {
  const percent = (share: number) => `${Math.round(100 * share)} %`
  const cautions: string[] = []
  // Also of a test that was not accepted, where its interval reaches one half.
  if (!certainOfHalf && best.interval.high >= 0.5)
    cautions.push(
      `${best.received} of ${best.sent} packets at spreading factor ${best.spreadingFactor}: the link may truly deliver anything from ${percent(best.interval.low)} to ${percent(best.interval.high)} (95 % interval). ${settlingSentence(packetsToSettle(best.received, best.sent), 0.5)}`,
    )
  if (best.sent < fewPackets)
    cautions.push(
      `Only ${best.sent} packets decide this. Send ${fewPackets} or more at one spreading factor.`,
    )
  if (shares.length > 1)
    cautions.push(
      `${shares.length} spreading factors were tried and one is enough: a link that truly delivers 35 % would pass this test with a chance of ${percent(chance)}. Repeat the test at spreading factor ${best.spreadingFactor}.`,
    )
  return cautions
}
