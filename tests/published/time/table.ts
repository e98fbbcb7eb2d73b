import { compileTimePattern } from '../../../api/intake/time-pattern.ts'
import { openZone, type WallInstant } from '../../../api/intake/zone-offsets.ts'
import { formatOffset, toLocalField } from '../../../web/ui/format-instant.ts'
import type { PublishedTable } from '../published-row.ts'
import { timeRows } from './rows.ts'

export const time: PublishedTable = {
  area: 'time',
  rows: timeRows,
  computed: {
    'TM-01': ({ zone_date }) =>
      zone_date.map((text: string) => {
        const [zone = '', date = ''] = text.split(' ')
        const midnight = wallMicros(`${date}T00:00`)
        return (atWall(zone, midnight + 86_400e6) - atWall(zone, midnight)) / 3_600e6
      }),
    'TM-02': ({ zone, utc }) =>
      utc.map((text: string) => {
        const at = wallMicros(text) / 1000
        return `${toLocalField(at, zone)}:00${offset(at, zone)}`
      }),
    'TM-04': ({ cases }) => cases.map(offsetOf),
    'TM-05': ({ case: text }) => offsetOf(text),
    // The language guesses a zone from how the text looks. The project reads no date without a time of day, and takes
    // the zone from the layout: the guesses are given to it as layouts.
    'TM-06': ({ strings: [dateOnly, dateTime] }) => {
      if (!Number.isNaN(wallMicros(dateOnly))) return 'a date without a time of day was read'
      return [
        atWall('UTC', wallMicros(`${dateOnly}T00:00`)),
        atWall('America/New_York', wallMicros(dateTime)),
      ].map((micros) => new Date(micros / 1000).toISOString())
    },
    // What V8 rolls over, the project refuses.
    'TM-07': ({ string }) =>
      Number.isNaN(wallMicros(string)) && Number.isNaN(wallMicros('2016-12-31T23:59:60Z'))
        ? `V8: ${new Date(string).toISOString()}`
        : 'a date or time that does not exist was read',
    'TM-08': ({ serial }) =>
      serial.map((days: number) =>
        new Date(read('serial', String(days)) / 1000).toISOString().replace('.000Z', 'Z'),
      ),
    'TM-09': ({ from, to }) => (wallMicros(to) - wallMicros(from)) / 1e6,
  },
}

function read(pattern: string, text: string): number {
  const reader = compileTimePattern(pattern)
  if (!reader.ok) throw new Error(reader.issues[0]?.message)
  const bytes = new TextEncoder().encode(text)
  return reader.value.read(bytes, 0, bytes.length)
}

/** Microseconds as intake reads them; NaN where it refuses. */
const wallMicros = (text: string) => read('iso', text)

function atWall(zone: string, wall: number): number {
  const opened = openZone(zone)
  if (!opened.ok) throw new Error(opened.issues[0]?.message)
  const into: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  opened.value.resolve(wall, into)
  return into.micros
}

function offset(atEpochMs: number, zone: string): string {
  return formatOffset(atEpochMs, zone).replace('UTC', '').replace('−', '-')
}

function offsetOf(text: string): string {
  const [zone = '', instant = ''] = text.split(' ')
  return offset(wallMicros(instant) / 1000, zone)
}
