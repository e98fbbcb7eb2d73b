import { normalQuantile } from '../statistics/normal-quantile.ts'

/**
 * Wilson score interval of the share of packets delivered, recommended for small numbers by Brown, Cai & DasGupta
 * (2001), Statistical Science 16:101–133. `confidence` between 0 and 1, for example 0.95. No packets: 0 to 1.
 */
export function wilsonInterval(
  received: number,
  sent: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  if (sent <= 0) return { low: 0, high: 1 }
  const z = normalQuantile(0.5 + confidence / 2)
  const share = received / sent
  const weight = 1 + (z * z) / sent
  const middle = (share + (z * z) / (2 * sent)) / weight
  const half = (z / weight) * Math.sqrt((share * (1 - share)) / sent + (z * z) / (4 * sent * sent))
  return {
    low: received === 0 ? 0 : Math.max(0, middle - half),
    high: received === sent ? 1 : Math.min(1, middle + half),
  }
}
