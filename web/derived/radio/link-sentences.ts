import type { LoggerLink } from '#domain/radio/logger-links.ts'
import type { LoggerStudy } from '#domain/radio/network-study.ts'
import { packetsToSettle, settlingSentence } from '#domain/radio/packets-to-settle.ts'
import type { PredictedDelivery } from '#domain/radio/predicted-delivery.ts'
import type { LinkProof } from '#domain/radio/proof.ts'
import type { SpreadingFactor } from '#domain/site/vocabulary.ts'

export const percentText = (share: number): string => {
  const percent = 100 * share
  return percent > 0 && percent < 1 ? 'under 1 %' : `${Math.floor(percent)} %`
}

export const proofNames: Readonly<Record<LinkProof['state'], string>> = {
  proven: 'Proven',
  'not-settled': 'Accepted, not settled',
  'to-be-proved-again': 'To be proved again',
  'not-accepted': 'Test not accepted',
  'never-tested': 'Never tested',
}

export const deliveryAt = (
  link: LoggerLink | undefined,
  spreadingFactor: SpreadingFactor,
): PredictedDelivery | undefined =>
  link?.deliveries.find((delivery) => delivery.spreadingFactor === spreadingFactor)

/** `91 % (74 to 99 %)`: share as likely exceeded as not, and its 90 % interval. */
export function deliveryText(delivery: PredictedDelivery | undefined): string {
  if (!delivery) return '–'
  const { middleShare, interval } = delivery
  return `${percentText(middleShare)} (${Math.floor(100 * interval.low)} to ${percentText(interval.high)})`
}

/** The last test in words: counts at its best factor with the interval. */
export function measuredText({ verdict, test }: LinkProof): string {
  const best = verdict?.best
  if (!best) return test === null ? 'No test' : `${test}: nothing was sent`
  const { low, high } = best.interval
  return `${test}: ${best.received} of ${best.sent} at SF ${best.spreadingFactor} (95 % interval ${Math.floor(100 * low)} to ${Math.floor(100 * high)} %)`
}

/** Counts of every factor tested, with Wilson's and the exact interval. */
export const countsText = ({ verdict }: LinkProof): readonly string[] =>
  (verdict?.shares ?? []).map(
    ({ spreadingFactor, received, sent, interval, exactInterval }) =>
      `SF ${spreadingFactor}: ${received} of ${sent}, 95 % interval ${rangeText(interval)} (Wilson), ${rangeText(exactInterval)} (Clopper–Pearson)`,
  )

const rangeText = ({ low, high }: { readonly low: number; readonly high: number }) =>
  `${Math.floor(100 * low)} to ${Math.floor(100 * high)} %`

/** Where a link goes and what is in its way. */
export function pathText(link: LoggerLink): string {
  const { distanceMetres, lossDb, mainEdge } = link.path
  const over =
    mainEdge === null
      ? 'nothing near the line of sight'
      : `${lossDb.toFixed(0)} dB over ${mainEdge === 'ground' ? 'the ground' : mainEdge}`
  const from =
    link.carriedFrom === null
      ? 'by the fit, less what the logger lost against it in its last test'
      : `carried on from test ${link.carriedFrom}`
  return `${distanceMetres.toFixed(0)} m, ${over}; signal ${link.signal.signalDbm.toFixed(0).replace('-', '−')} dBm, ${from}`
}

/** What must be heeded of a logger's link before it is relied on. */
export function linkCautions({ proof, links }: LoggerStudy, wantedShare: number): readonly string[] {
  const best = links[0]
  const test = proof.verdict?.best
  const predicted = test && best && deliveryAt(best, test.spreadingFactor as SpreadingFactor)
  const cautions = [...proof.reasons, ...(proof.verdict?.cautions ?? [])]
  if (test && test.received > 0)
    cautions.push(
      `Against the wanted ${percentText(wantedShare)}: ${settlingSentence(packetsToSettle(test.received, test.sent, wantedShare), wantedShare)}`,
    )
  if (test && test.received === 0)
    cautions.push('Nothing came through in its last test: what is predicted of it is at most so.')
  // Apart only where neither interval reaches the other: ten packets say little.
  if (
    predicted &&
    test &&
    (test.interval.high < predicted.interval.low || test.interval.low > predicted.interval.high)
  )
    cautions.push(
      `Predicted and measured differ: ${percentText(test.share)} arrived at SF ${test.spreadingFactor}, the prediction is ${deliveryText(predicted)}.`,
    )
  if (links.filter((link) => (deliveryAt(link, 12)?.middleShare ?? 0) >= wantedShare).length === 1)
    cautions.push('Only one gateway is predicted to hear it: if that one is silent, so is the logger.')
  return cautions
}

/** What a planned change does to a logger at a factor: shares before and after, and the loss or gain. */
export interface BeforeAfter {
  readonly logger: string
  readonly before: PredictedDelivery
  readonly beforeGateway: string
  readonly after: PredictedDelivery
  readonly afterGateway: string
  readonly afterEdge: string | null
}

/** Loggers by how much less they deliver with the change, the worst first. */
export function beforeAndAfter(
  loggers: readonly LoggerStudy[],
  spreadingFactor: SpreadingFactor,
): readonly BeforeAfter[] {
  return loggers
    .flatMap(({ logger, links, planned }): BeforeAfter[] => {
      const [first, then] = [strongest(links, spreadingFactor), strongest(planned ?? [], spreadingFactor)]
      const [before, after] = [deliveryAt(first, spreadingFactor), deliveryAt(then, spreadingFactor)]
      return first && then && before && after
        ? [
            {
              logger: logger.id,
              before,
              beforeGateway: first.gateway,
              after,
              afterGateway: then.gateway,
              afterEdge: then.path.mainEdge,
            },
          ]
        : []
    })
    .toSorted(
      (one, other) =>
        one.after.marginDb - one.before.marginDb - (other.after.marginDb - other.before.marginDb),
    )
}

const strongest = (links: readonly LoggerLink[], spreadingFactor: SpreadingFactor): LoggerLink | undefined =>
  links.reduce<LoggerLink | undefined>(
    (best, link) =>
      best === undefined ||
      (deliveryAt(link, spreadingFactor)?.share ?? 0) > (deliveryAt(best, spreadingFactor)?.share ?? 0)
        ? link
        : best,
    undefined,
  )

/** How many loggers deliver less than wanted before and after, as a sentence. */
export function gainSentence(rows: readonly BeforeAfter[], wantedShare: number): string {
  const below = (of: (row: BeforeAfter) => PredictedDelivery) =>
    rows.filter((row) => of(row).middleShare < wantedShare).map(({ logger }) => logger)
  const [before, after] = [below(({ before: one }) => one), below(({ after: one }) => one)]
  const names = (list: readonly string[]) => (list.length === 0 ? '' : ` (${list.join(', ')})`)
  return `Loggers below the wanted ${percentText(wantedShare)}: ${before.length} now${names(before)}, ${after.length} then${names(after)}.`
}
