import type { Layout } from '#contract/layout.ts'
import type { LevelLineRecord } from '#contract/level-lines.ts'
import {
  type BookedSetup,
  closureSentence,
  type LevelBookTerms,
  type LevelLine,
  reduceLevelLine,
} from '#domain/levelling/level-line.ts'
import { unknownLoggerSentence } from './logger-register.ts'
import type { LevelBookColumns, LongColumns } from './map-columns.ts'
import type { QuarantineCode } from './quarantine-log.ts'
import { freshClock, type RowTaker, type TakingContext } from './row-taker.ts'
import { cellText, type ScannedRow } from './scanned-row.ts'

type LevelBook = NonNullable<Layout['levelBook']>

interface BookedRow extends BookedSetup {
  readonly fileLine: number
  readonly atMicros: number
  readonly receivedMicros: number
}

/** What the point ahead of a setup is: a channel, one that is held and why, or a point that carries no reading. */
type Point = { readonly channel: number } | { readonly code: QuarantineCode; readonly reason: string } | null

const mostSetups = 20_000

/**
 * Takes a level book: rows are setups, and lines are worked out when the file ends. What a line gives are the adjusted
 * levels of its points; one that does not close, or has a setup missing, is set aside whole and nothing is shared out.
 */
export function openLevelBook(
  columns: LongColumns & { readonly levelBook: LevelBookColumns },
  book: LevelBook,
  context: TakingContext,
): RowTaker {
  const { cells, log, blocks } = context
  const terms: LevelBookTerms = {
    benchmarks: new Map(book.benchmarks.map(({ name, levelMetres }) => [name, levelMetres])),
    closureMmPerRootKm: book.closureMmPerRootKm,
    share: book.share,
  }
  const turning = book.turningPoints === null ? null : new RegExp(book.turningPoints, 'u')
  const clock = freshClock()
  const points = new Map<string, Point>()
  const lines = new Map<string, BookedRow[]>()
  let held = 0

  const text = (row: ScannedRow, cell: number) => cellText(row, cell).trim()
  const number = (row: ScannedRow, cell: number) => cells.number(row, cell)
  const carriesReading = (ahead: string) => !terms.benchmarks.has(ahead) && !turning?.test(ahead)
  const readingsOf = (rows: readonly BookedRow[]) => rows.filter(({ ahead }) => carriesReading(ahead)).length

  async function pointOf(ahead: string): Promise<Point> {
    if (!carriesReading(ahead)) return null
    const name = columns.loggerName ?? ''
    const logger = context.register.find(name)
    if (!logger) return { code: 'logger-unknown', reason: unknownLoggerSentence(name) }
    const why = ahead === '' ? 'The setup names no point ahead.' : context.register.whyHeld(logger, ahead)
    if (why !== null) return { code: 'channel-unknown', reason: why }
    const [channel = -1] = await context.store.channelNumbers(context.site, [
      { logger: logger.id, name: ahead },
    ])
    return { channel }
  }

  function settle(line: string, rows: readonly BookedRow[]): void {
    const first = rows[0]
    const outcome = reduceLevelLine(line, rows, terms)
    if (!outcome.ok) {
      const [issue] = outcome.issues
      if (issue) context.remarks.push(issue.message)
      context.onLevelLine?.(recordOf(line, rows, issue?.message ?? '', null))
      const code = issue?.code === 'level-line-open' ? 'level-line-open' : 'level-line-broken'
      log.add(
        code,
        first?.fileLine ?? 0,
        `level line ${line}`,
        issue?.value ?? line,
        readingsOf(rows),
        () => issue?.message ?? '',
      )
      return
    }
    const sentence = closureSentence(outcome.value, terms)
    context.remarks.push(sentence)
    context.onLevelLine?.(recordOf(line, rows, sentence, outcome.value))
    const bySetup = new Map(rows.map((row) => [row.setup, row]))
    for (const { setup, ahead, adjustedMetres } of outcome.value.levels) {
      const point = points.get(ahead) ?? null
      const row = bySetup.get(setup)
      if (point === null || row === undefined) continue
      if ('reason' in point) {
        log.add(point.code, row.fileLine, ahead, adjustedMetres.toFixed(5), 1, () => point.reason)
        continue
      }
      blocks.raw[blocks.used] = adjustedMetres
      blocks.channel[blocks.used++] = point.channel
      blocks.stamp(blocks.used - 1, row.atMicros, row.receivedMicros)
    }
  }

  return {
    width: columns.width,
    // Nothing is written before the end; then there must be room for all of it.
    mostReadings: 1,
    knows: (row) => points.has(text(row, columns.channel)),
    async learn(row) {
      const ahead = text(row, columns.channel)
      points.set(ahead, await pointOf(ahead))
    },
    clockOf: () => clock,
    clocks: () => [clock],
    take(row, atMicros, receivedMicros) {
      const { line, setup, behind, backsight, distance } = columns.levelBook
      const ahead = text(row, columns.channel)
      if (held >= mostSetups || !blocks.fits(held + 1)) {
        log.add(
          'level-line-broken',
          row.line,
          null,
          ahead,
          carriesReading(ahead) ? 1 : 0,
          () => `More than ${mostSetups} setups stand in one level book. Split it and send the parts.`,
        )
        return true
      }
      held++
      const name = text(row, line)
      const booked: BookedRow = {
        setup: number(row, setup),
        behind: text(row, behind),
        ahead,
        backsightMetres: number(row, backsight),
        foresightMetres: number(row, columns.value),
        distanceMetres: Number.isNaN(number(row, distance)) ? null : number(row, distance),
        fileLine: row.line,
        atMicros,
        receivedMicros,
      }
      lines.set(name, [...(lines.get(name) ?? []), booked])
      return Number.isNaN(booked.setup + booked.backsightMetres + booked.foresightMetres)
    },
    countReadings: (row) => (carriesReading(text(row, columns.channel)) ? 1 : 0),
    countCells: () => 1,
    close() {
      for (const [line, rows] of lines) settle(line, rows)
      lines.clear()
      held = 0
    },
  }
}

function recordOf(
  line: string,
  rows: readonly BookedRow[],
  sentence: string,
  worked: LevelLine | null,
): LevelLineRecord {
  const levels = new Map(worked?.levels.map((level) => [level.setup, level]))
  const setups = rows.toSorted((one, other) => one.setup - other.setup)
  return {
    line,
    taken: worked !== null,
    sentence,
    setups: setups.map(({ setup, behind, ahead, backsightMetres, foresightMetres, distanceMetres }) => {
      const level = levels.get(setup)
      return {
        setup,
        behind,
        ahead,
        backsightMetres,
        foresightMetres,
        distanceMetres,
        reducedMetres: level?.reducedMetres ?? null,
        adjustedMetres: level?.adjustedMetres ?? null,
        standardUncertaintyMm: level?.standardUncertaintyMm ?? null,
      }
    }),
  }
}
