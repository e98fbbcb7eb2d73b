import type { Wire } from './wires-in-force.ts'

/**
 * Readings that a logger should take from one instant until another, exclusive: one at every whole interval of UTC, the
 * interval being the shortest of what it reads at the time. 0 while nothing is wired to it.
 */
export function dueReadings(
  wires: readonly Pick<Wire, 'sensor' | 'fromEpochMs' | 'untilEpochMs'>[],
  fromEpochMs: number,
  untilEpochMs: number,
): number {
  if (!(untilEpochMs > fromEpochMs)) return 0
  const turns = wires
    .flatMap((wire) => [wire.fromEpochMs, wire.untilEpochMs])
    .filter((turn) => turn > fromEpochMs && turn < untilEpochMs)
  const edges = [...new Set([fromEpochMs, ...turns, untilEpochMs])].sort((one, other) => one - other)
  let due = 0
  for (let at = 1; at < edges.length; at++) {
    const [from, until] = [edges[at - 1] as number, edges[at] as number]
    const minutes = wires
      .filter((wire) => wire.fromEpochMs <= from && from < wire.untilEpochMs)
      .map((wire) => wire.sensor.intervalMinutes)
    if (minutes.length === 0) continue
    const intervalMs = Math.min(...minutes) * 60_000
    due += Math.ceil(until / intervalMs) - Math.ceil(from / intervalMs)
  }
  return due
}
