/**
 * What happens where loggers keep their phase instead of drawing it anew: two that meet once meet at every interval, until
 * their clocks have drifted apart by the length of a packet. Seconds until then; Infinity for equal clocks.
 */
export const secondsUntilApart = (onAirSeconds: number, driftApartSecondsPerDay: number): number =>
  driftApartSecondsPerDay === 0
    ? Number.POSITIVE_INFINITY
    : (86_400 * onAirSeconds) / Math.abs(driftApartSecondsPerDay)

/** Chance that a logger at a fixed phase overlaps at least one of the others, whatever the channel. */
export const chanceOfOverlap = (loggers: number, onAirSeconds: number, intervalSeconds: number): number =>
  1 - (1 - Math.min(1, (2 * onAirSeconds) / intervalSeconds)) ** Math.max(0, loggers - 1)
