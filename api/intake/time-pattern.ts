import { accept, type Outcome, reject } from '#domain/outcome.ts'

/** Reads instants as a layout writes them. One reader a column; it remembers the last day it met. */
export interface TimeReader {
  /**
   * Microseconds since 1970 as the clock on the wall reads, taken as though it were UTC; NaN when unreadable.
   * Where the text carries its own offset (`statesOffset`), the result is UTC already.
   */
  read(bytes: Uint8Array, start: number, end: number): number
  /** Whether the last text read carried its own offset or counts from 1970, so that no zone applies. */
  statesOffset: boolean
}

const dayMicros = 86_400_000_000
const tokenPattern = /yyyy|MM|dd|HH|mm|ss|SSS/g

/**
 * Compiles a layout's time pattern: `yyyy MM dd HH mm ss SSS` and literal characters, or `iso` (RFC 3339, the
 * offset may be missing, a blank may stand for T), `epoch-s`, `epoch-ms`, `serial`. Two-digit tokens also take one digit
 * where a literal follows; SSS takes one to six digits of a fraction; 24:00:00 is the next midnight.
 */
export function compileTimePattern(pattern: string): Outcome<TimeReader> {
  if (pattern === 'iso') return accept(isoReader())
  if (pattern === 'epoch-s') return accept(epochReader(1e6))
  if (pattern === 'epoch-ms') return accept(epochReader(1e3))
  if (pattern === 'serial') return accept(serialReader())
  const tokens = [...pattern.matchAll(tokenPattern)].map((match) => match[0])
  const missing = ['yyyy', 'MM', 'dd', 'HH', 'mm'].filter((token) => !tokens.includes(token))
  if (missing.length > 0 || new Set(tokens).size !== tokens.length) {
    return reject({
      code: 'time-pattern',
      message: `The time pattern "${pattern}" must hold each of yyyy, MM, dd, HH and mm once; ss and SSS may follow.`,
      value: pattern,
    })
  }
  return accept(patternReader(pattern))
}

type Step = { readonly field: number; readonly digits: number } | { readonly literal: number }
const fields: Record<string, { field: number; digits: number }> = {
  yyyy: { field: 0, digits: 4 },
  MM: { field: 1, digits: 2 },
  dd: { field: 2, digits: 2 },
  HH: { field: 3, digits: 2 },
  mm: { field: 4, digits: 2 },
  ss: { field: 5, digits: 2 },
  SSS: { field: 6, digits: 6 },
}

function patternReader(pattern: string): TimeReader {
  const steps: Step[] = []
  let from = 0
  const literal = (text: string) => {
    for (const byte of new TextEncoder().encode(text)) steps.push({ literal: byte })
  }
  for (const match of pattern.matchAll(tokenPattern)) {
    literal(pattern.slice(from, match.index))
    steps.push(fields[match[0]] as Step)
    from = match.index + match[0].length
  }
  literal(pattern.slice(from))
  const values = new Float64Array(7)
  const toMicros = createDayCache()
  return {
    statesOffset: false,
    read(bytes, start, end) {
      let at = start
      while (at < end && bytes[at] === 0x20) at++
      while (end > at && bytes[end - 1] === 0x20) end--
      values[5] = 0
      values[6] = 0
      for (let step = 0; step < steps.length; step++) {
        const want = steps[step] as Step
        if ('literal' in want) {
          if (at >= end || bytes[at] !== want.literal) return Number.NaN
          at++
          continue
        }
        let value = 0
        let digits = 0
        while (digits < want.digits && at < end) {
          const digit = (bytes[at] as number) - 0x30
          if (digit < 0 || digit > 9) break
          value = value * 10 + digit
          digits++
          at++
        }
        if (digits === 0) return Number.NaN
        if (want.field === 6) value *= fractionScale[digits] as number
        else if (digits < want.digits) {
          const following = steps[step + 1]
          if (want.digits === 4 || (following !== undefined && !('literal' in following))) return Number.NaN
        }
        values[want.field] = value
      }
      if (at !== end) return Number.NaN
      return toMicros(values)
    },
  }
}

const fractionScale = [0, 1e5, 1e4, 1e3, 100, 10, 1]

/** RFC 3339 by position; anything after the seconds is a fraction, then Z, an offset, or nothing. */
function isoReader(): TimeReader {
  const values = new Float64Array(7)
  const toMicros = createDayCache()
  const reader: TimeReader = {
    statesOffset: false,
    read(bytes, start, end) {
      let at = start
      while (at < end && bytes[at] === 0x20) at++
      while (end > at && bytes[end - 1] === 0x20) end--
      reader.statesOffset = false
      const two = (from: number) => {
        const tens = (bytes[from] as number) - 0x30
        const ones = (bytes[from + 1] as number) - 0x30
        return tens < 0 || tens > 9 || ones < 0 || ones > 9 ? Number.NaN : tens * 10 + ones
      }
      if (end - at < 16 || bytes[at + 4] !== 0x2d || bytes[at + 7] !== 0x2d || bytes[at + 13] !== 0x3a)
        return Number.NaN
      const divider = bytes[at + 10] as number
      if (divider !== 0x20 && (divider | 0x20) !== 0x74) return Number.NaN
      values[0] = two(at) * 100 + two(at + 2)
      values[1] = two(at + 5)
      values[2] = two(at + 8)
      values[3] = two(at + 11)
      values[4] = two(at + 14)
      values[5] = 0
      values[6] = 0
      at += 16
      if (at < end && bytes[at] === 0x3a) {
        if (at + 3 > end) return Number.NaN
        values[5] = two(at + 1)
        at += 3
        if (at < end && (bytes[at] === 0x2e || bytes[at] === 0x2c)) {
          at++
          let scale = 100_000
          let fraction = 0
          const fractionFrom = at
          for (; at < end; at++) {
            const digit = (bytes[at] as number) - 0x30
            if (digit < 0 || digit > 9) break
            if (scale >= 1) fraction += digit * scale
            scale /= 10
          }
          if (at === fractionFrom) return Number.NaN
          values[6] = fraction
        }
      }
      let offsetMinutes = 0
      if (at < end) {
        const sign = bytes[at] as number
        if ((sign | 0x20) === 0x7a) at++
        else if (sign === 0x2b || sign === 0x2d) {
          const colon = bytes[at + 3] === 0x3a ? 1 : 0
          if (at + 5 + colon > end) return Number.NaN
          const hours = two(at + 1)
          const minutes = two(at + 3 + colon)
          if (!(hours <= 23 && minutes <= 59)) return Number.NaN
          offsetMinutes = (sign === 0x2d ? -1 : 1) * (hours * 60 + minutes)
          at += 5 + colon
        }
        if (at !== end) return Number.NaN
        reader.statesOffset = true
      }
      return toMicros(values) - offsetMinutes * 60e6
    },
  }
  return reader
}

/** Decimal count of seconds or milliseconds since 1970, UTC; kept to the microsecond. */
function epochReader(unitMicros: number): TimeReader {
  return {
    statesOffset: true,
    read(bytes, start, end) {
      let text = ''
      for (let at = start; at < end; at++) text += String.fromCharCode(bytes[at] as number)
      return /^\s*-?\d{1,16}(\.\d+)?\s*$/.test(text) ? Math.round(Number(text) * unitMicros) : Number.NaN
    },
  }
}

const unixEpochSerial = 25_569

/**
 * Days of a spreadsheet's calendar that counts from 1900 (ECMA-376), its fraction the time of day on the wall. Kept to
 * the millisecond: fifteen digits carry no more. Up to 60 refused: that calendar has a 29 February 1900,
 * so that earlier days mean one thing or another. Files that count from 1904 look alike and lie 1462 days off.
 */
function serialReader(): TimeReader {
  return {
    statesOffset: false,
    read(bytes, start, end) {
      let text = ''
      for (let at = start; at < end; at++) text += String.fromCharCode(bytes[at] as number)
      if (!/^\s*\d{2,6}([.,]\d+)?\s*$/.test(text)) return Number.NaN
      const days = Number(text.replace(',', '.'))
      return days < 61 ? Number.NaN : Math.round((days - unixEpochSerial) * 86_400_000) * 1000
    },
  }
}

/** Turns calendar fields into microseconds, working a date out only when it differs from the one before. */
function createDayCache(): (values: Float64Array) => number {
  let cachedDate = -1
  let cachedMicros = Number.NaN
  return (values) => {
    const hour = values[3] as number
    const minute = values[4] as number
    const second = values[5] as number
    const micros = values[6] as number
    const date = (values[0] as number) * 10_000 + (values[1] as number) * 100 + (values[2] as number)
    if (date !== cachedDate) {
      cachedDate = date
      cachedMicros = dayStartMicros(values[0] as number, values[1] as number, values[2] as number)
    }
    const within = hour < 24 && minute < 60 && second < 60
    if (!within && !(hour === 24 && minute === 0 && second === 0 && micros === 0)) return Number.NaN
    return cachedMicros + hour * 3_600e6 + minute * 60e6 + second * 1e6 + micros
  }
}

/** NaN for a date that is not in the calendar, such as 30 February. */
function dayStartMicros(year: number, month: number, day: number): number {
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= 31 && year >= 1)) return Number.NaN
  const date = new Date(0)
  date.setUTCFullYear(year, month - 1, day)
  return date.getUTCMonth() === month - 1 ? (date.getTime() / 86_400_000) * dayMicros : Number.NaN
}
