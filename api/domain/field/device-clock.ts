import type { FieldEntry } from './field-entry.ts'

const toleratedMs = 10 * 60_000

/**
 * What must be said of the clock of the device that wrote an entry; null where it was within 10 minutes of the
 * server's, or nothing is known of it. An entry written "after" it arrived shows a fast clock by itself; a slow one
 * cannot be told from a device that was long without a network.
 */
export function clockSentence(
  { clockAheadMs, writtenAtEpochMs }: Pick<FieldEntry, 'clockAheadMs' | 'writtenAtEpochMs'>,
  receivedAtEpochMs: number,
): string | null {
  const ahead = Math.max(clockAheadMs ?? Number.NEGATIVE_INFINITY, writtenAtEpochMs - receivedAtEpochMs)
  if (ahead > toleratedMs)
    return `The clock of the device was ${durationText(ahead)} ahead of the server's: look whether the instant is right.`
  if (clockAheadMs !== null && clockAheadMs < -toleratedMs)
    return `The clock of the device was ${durationText(-clockAheadMs)} behind the server's: look whether the instant is right.`
  return null
}

/**
 * What the person with a device must be told of its clock, milliseconds ahead of the server's; null: it was within 10
 * minutes, or nothing is known. Positive is ahead.
 */
export function ownClockSentence(clockAheadMs: number | null): string | null {
  if (clockAheadMs === null || Math.abs(clockAheadMs) <= toleratedMs) return null
  const way = clockAheadMs > 0 ? 'ahead of' : 'behind'
  return `The clock of this device is ${durationText(Math.abs(clockAheadMs))} ${way} the server's. Set it right before anything is written down: times of readings are taken from it.`
}

function durationText(ms: number): string {
  const minutes = Math.round(ms / 60_000)
  if (minutes < 120) return `${minutes} minutes`
  const hours = Math.round(minutes / 60)
  return hours < 48 ? `${hours} hours` : `${Math.round(hours / 24)} days`
}
