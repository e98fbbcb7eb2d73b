import type { Errand } from '#domain/field/due-work.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'

/** Why a place should be gone to, in a line. */
export function errandSentence(errand: Errand, nowEpochMs: number, zone: string): string {
  const { kind, instrument, sensors, dueAtEpochMs } = errand
  const count = sensors.length === 1 ? '' : `, ${sensors.length} sensors`
  const at = dueAtEpochMs === null ? null : formatShortInstant(dueAtEpochMs, zone)
  switch (kind) {
    case 'read-by-hand': {
      const what = `${instrument}${count}: ${errand.criticalWithoutData ? 'critical, no current data: ' : ''}to be read by hand`
      if (at === null) return `${what}, never read yet`
      return `${what}, ${dueText(dueAtEpochMs as number, nowEpochMs)} (${at})`
    }
    case 'silent-critical':
      return `${instrument}${count}: critical, no current data since ${at ?? 'ever'}`
    case 'silent':
      return `${instrument}${count}: no current data since ${at ?? 'ever'}`
    case 'without-value':
      return `${instrument}${count}: reads, but gives no value; last read ${at}`
    case 'level-reached':
      return `${instrument}${count}: a trigger level is reached, look at the place`
    case 'certificate-due':
      return `${instrument}${count}: calibration due ${at}`
    case 'visit-ordered':
      return `${instrument}: a visit to ${sensors.join(', ')} was ordered by a verdict of ${at}`
  }
}

function dueText(dueAtEpochMs: number, nowEpochMs: number): string {
  const hours = (dueAtEpochMs - nowEpochMs) / 3_600_000
  const size =
    Math.abs(hours) < 48 ? `${Math.round(Math.abs(hours))} h` : `${Math.round(Math.abs(hours) / 24)} d`
  return hours < 0 ? `overdue by ${size}` : `due in ${size}`
}
