import { wilsonInterval } from '../statistics/wilson-interval.ts'

/** More than this nobody sends in a test: the question is then told as open. */
const mostPackets = 2000

export interface Settling {
  /** How many more packets the test needs; 0: settled already. Null: more than 2000, or never. */
  readonly furtherPackets: number | null
  /** Where the whole interval lies then (or lies now), should the share stay as it is. */
  readonly side: 'above' | 'below' | 'open'
}

/**
 * The least number of further packets for which the 95 % Wilson interval would lie wholly at or above, or wholly below, a
 * required share (0 to 1), if the share delivered stays as it is. A forecast of the test, not of the link.
 */
export function packetsToSettle(received: number, sent: number, requiredShare = 0.5): Settling {
  if (sent <= 0) return { furtherPackets: null, side: 'open' }
  const share = received / sent
  for (let further = 0; further <= mostPackets; further++) {
    const total = sent + further
    const { low, high } = wilsonInterval(further === 0 ? received : Math.round(share * total), total)
    if (low >= requiredShare) return { furtherPackets: further, side: 'above' }
    if (high < requiredShare) return { furtherPackets: further, side: 'below' }
  }
  return { furtherPackets: null, side: 'open' }
}

/** The same as a sentence. */
export function settlingSentence({ furtherPackets, side }: Settling, requiredShare: number): string {
  const share = `${Math.round(100 * requiredShare)} %`
  if (furtherPackets === null)
    return `So near to ${share} that not even ${mostPackets} more packets would settle on which side the link lies.`
  const where = side === 'above' ? `at or above ${share}` : `below ${share}`
  return furtherPackets === 0
    ? `The whole 95 % interval lies ${where}.`
    : `About ${furtherPackets} more packets at this spreading factor would settle that the link lies ${where}, if the share stays as it is.`
}
