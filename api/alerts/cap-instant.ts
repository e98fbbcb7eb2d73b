/**
 * An instant as CAP 1.2 writes it (3.3.2): local date and time of a zone with its offset in digits, whole seconds, rounded
 * down. Never `Z`; where the offset is nought it is -00:00, as the standard has it for UTC.
 */
export function capInstant(atEpochMs: number, timeZone: string): string {
  const wholeSecondMs = Math.floor(atEpochMs / 1000) * 1000
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(wholeSecondMs)
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find((one) => one.type === type)?.value ?? ''
  const date = `${part('year').padStart(4, '0')}-${part('month')}-${part('day')}`
  const time = `${part('hour')}:${part('minute')}:${part('second')}`
  const offsetMinutes = Math.round((Date.parse(`${date}T${time}Z`) - wholeSecondMs) / 60_000)
  const size = Math.abs(offsetMinutes)
  const two = (value: number) => String(value).padStart(2, '0')
  return `${date}T${time}${offsetMinutes > 0 ? '+' : '-'}${two(Math.floor(size / 60))}:${two(size % 60)}`
}
