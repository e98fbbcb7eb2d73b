/** One line of the bench: what was measured of ours, and of a named peer in the same run. */
export interface Measurement {
  readonly name: string
  readonly ours: number
  readonly unit: string
  /** What it is compared with; null where the figure stands against a stated goal alone. */
  readonly peer: { readonly name: string; readonly value: number } | null
  /** The goal, in words. */
  readonly goal: string
}

/** Ours over the peer's, or null. */
export const ratioOf = ({ ours, peer }: Measurement): number | null => (peer ? ours / peer.value : null)

export function lineOf(measurement: Measurement): string {
  const { name, ours, unit, peer, goal } = measurement
  const against = peer
    ? `${peer.name} ${figure(peer.value)} ${unit}, ratio ${figure(ratioOf(measurement) ?? Number.NaN)}`
    : 'no peer'
  return `${name}: ${figure(ours)} ${unit}; ${against}; goal ${goal}`
}

const figure = (value: number): string =>
  Math.abs(value) >= 1000 ? Math.round(value).toLocaleString('en-GB') : value.toPrecision(3)

/** Median and 95th percentile of times in milliseconds. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
}
