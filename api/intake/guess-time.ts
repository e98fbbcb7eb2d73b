import type { HeadRow } from './read-head.ts'
import { compileTimePattern, type TimeReader } from './time-pattern.ts'

/** Columns (from 0) that together hold a time, and how it is written. */
export interface GuessedTime {
  readonly columns: readonly number[]
  readonly pattern: string
  /** The text carries its own offset, or counts from 1970. */
  readonly statesOffset: boolean
  /** First row with a readable time. */
  readonly firstRow: HeadRow
  /** Wall times of the rows that could be read, microseconds. */
  readonly micros: readonly number[]
  /** Another reading of the same texts that fits as well: day and month exchanged. */
  readonly alsoReadableAs: string | null
}

const dates = [
  'dd.MM.yyyy',
  'dd/MM/yyyy',
  'MM/dd/yyyy',
  'dd-MM-yyyy',
  'MM-dd-yyyy',
  'yyyy/MM/dd',
  'yyyy.MM.dd',
  'yyyyMMdd',
  'yyyy-MM-dd',
]
const times = ['HH:mm:ss', 'HH:mm', 'HH:mm:ss.SSS', 'HHmmss', 'HH.mm.ss', 'HH.mm']
const patterns = [
  'iso',
  ...dates.flatMap((date) => times.map((time) => `${date} ${time}`)),
  'yyyyMMddHHmmss',
  'yyyyMMddHHmm',
  'epoch-ms',
  'epoch-s',
]

/** Every column, or pair of neighbours, in which most rows hold a time; the rows may begin with a header. */
export function guessTimes(rows: readonly HeadRow[], width: number): GuessedTime[] {
  const found: GuessedTime[] = []
  for (let column = 0; column < width; column++) {
    if (found.some(({ columns }) => columns.includes(column))) continue
    const alone = bestPattern(rows, [column])
    const pair = alone || column + 1 >= width ? null : bestPattern(rows, [column, column + 1])
    const guess = alone ?? pair
    if (guess) found.push(guess)
  }
  return found
}

function bestPattern(rows: readonly HeadRow[], columns: readonly number[]): GuessedTime | null {
  if (rows.length === 0) return null
  const texts = rows.map((row) => encoder.encode(columns.map((column) => row.cells[column] ?? '').join(' ')))
  const candidates = readers()
    .map((reader) => tryPattern(rows, texts, columns, reader))
    .filter((guess) => guess !== null)
    .sort((a, b) => b.micros.length - a.micros.length || unsteadiness(a.micros) - unsteadiness(b.micros))
  const [best, second] = candidates
  if (!best) return null
  const swapped =
    second &&
    second.micros.length === best.micros.length &&
    unsteadiness(second.micros) === unsteadiness(best.micros)
      ? second.pattern
      : null
  return { ...best, alsoReadableAs: swapped }
}

const encoder = new TextEncoder()

/** Made once: a first look tries every pattern on every column. */
let compiledReaders: { readonly pattern: string; readonly reader: TimeReader }[] | null = null

function readers() {
  compiledReaders ??= patterns.flatMap((pattern) => {
    const compiled = compileTimePattern(pattern)
    return compiled.ok ? [{ pattern, reader: compiled.value }] : []
  })
  return compiledReaders
}

function tryPattern(
  rows: readonly HeadRow[],
  texts: readonly Uint8Array[],
  columns: readonly number[],
  { pattern, reader }: { readonly pattern: string; readonly reader: TimeReader },
): GuessedTime | null {
  const micros: number[] = []
  let firstRow: HeadRow | null = null
  let since = 0
  let statesOffset = false
  for (const [index, row] of rows.entries()) {
    const text = texts[index] as Uint8Array
    const value = reader.read(text, 0, text.length)
    const plausible = value > 631_152_000e6 && value < 4_102_444_800e6
    if (firstRow !== null) since++
    if (!plausible) continue
    if (firstRow === null) {
      firstRow = row
      since = 1
      statesOffset = reader.statesOffset
    }
    micros.push(value)
  }
  if (firstRow === null || micros.length < 0.8 * since || micros.length < Math.min(2, rows.length - 1))
    return null
  return { columns, pattern, statesOffset, firstRow, micros, alsoReadableAs: null }
}

/** How unlike a logger's record a sequence of times is: it runs one way, at few different intervals. */
function unsteadiness(micros: readonly number[]): number {
  let turns = 0
  let direction = 0
  const steps = new Set<number>()
  for (let i = 1; i < micros.length; i++) {
    const step = (micros[i] as number) - (micros[i - 1] as number)
    if (step === 0) continue
    if (direction !== 0 && Math.sign(step) !== direction) turns++
    direction = Math.sign(step)
    steps.add(step)
  }
  return turns * 1000 + steps.size
}
