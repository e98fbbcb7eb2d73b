import type { DuckDBConnection } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import { knownBySql } from '#domain/receipt/known-by.ts'
import { mayMeet, stampsWithin } from '#domain/reduction/clock-reach.ts'
import { addedMsSql, type ClockStretch, clockStretches } from '#domain/reduction/logger-clock.ts'
import { quoteName, timestampLiteral } from './query-rows.ts'
import type { ChannelClock, ReadingWindow } from './store.ts'

/**
 * A view of the readings on one connection, gone with it: nothing is copied and nothing is written to the file.
 * The bounds are constants in the view, so a scan reads only the parts of the table that the window touches.
 */
export async function exposeReadings(
  connection: DuckDBConnection,
  catalog: string,
  /** Null: a site without readings. */
  site: number | null,
  name: string,
  window: ReadingWindow,
): Promise<void> {
  const select = readingsSql(`${quoteName(catalog)}.main.reading`, site, window)
  await connection.run(`CREATE OR REPLACE TEMP VIEW ${quoteName(name)} AS ${select}`)
}

/** The readings of a window out of a table of them, as a query. */
export function readingsSql(table: string, site: number | null, window: Omit<ReadingWindow, 'site'>): string {
  const always = [site === null ? 'false' : `site = ${site}`, ...boundOf(window)]
  // One that reads nothing puts nothing right.
  const clocks = (window.clocks ?? []).filter(({ channels }) => channels.length > 0)
  const asSent = `SELECT channel, "at", raw, received_at, batch, "at" AS stamp FROM ${table}
     WHERE ${[...always, ...within('"at"', window), ...without(clocks)].join(' AND ')}`
  const parts = clocks.map((clock) => putRight(table, always, window, clock))
  return [asSent, ...parts].join('\n UNION ALL ')
}

const boundOf = ({ bound }: Pick<ReadingWindow, 'bound'>): readonly string[] =>
  bound === undefined
    ? []
    : [
        knownBySql('received_at', instantLiteral(bound.receivedUntilEpochMs)),
        `batch <= ${Math.round(bound.throughBatch)}`,
      ]

type Bounds = Pick<ReadingWindow, 'fromEpochMs' | 'untilEpochMs'>

const within = (column: string, { fromEpochMs, untilEpochMs }: Bounds): readonly string[] => [
  ...(fromEpochMs === undefined ? [] : [`${column} >= ${instantLiteral(fromEpochMs)}`]),
  ...(untilEpochMs === undefined ? [] : [`${column} < ${instantLiteral(untilEpochMs)}`]),
]

function without(clocks: readonly ChannelClock[]): readonly string[] {
  const channels = clocks.flatMap((clock) => clock.channels)
  return channels.length === 0 ? [] : [`channel NOT IN (${channels.join(', ')})`]
}

/**
 * Readings of the channels of one logger at the instants that its clock, put right, would have stamped. Each stretch of a
 * setting is a scan bounded by its stamps. Of readings of a channel that come to stand at one instant that holds which
 * was received first, and of those received together the one stamped first: as `putRight` of a sandbox has it.
 */
function putRight(
  table: string,
  always: readonly string[],
  window: Bounds,
  { channels, settings }: ChannelClock,
): string {
  const chosen = [...always, `channel IN (${channels.join(', ')})`]
  const instants = {
    fromEpochMs: window.fromEpochMs ?? Number.NEGATIVE_INFINITY,
    untilEpochMs: window.untilEpochMs ?? Number.POSITIVE_INFINITY,
  }
  const stretches = clockStretches(settings).flatMap((stretch) => {
    const stamps = stampsWithin(stretch, instants)
    if (stamps === null) return []
    const bounds = {
      ...(Number.isFinite(stamps.fromEpochMs) ? { fromEpochMs: stamps.fromEpochMs } : {}),
      ...(Number.isFinite(stamps.untilEpochMs) ? { untilEpochMs: stamps.untilEpochMs } : {}),
    }
    return [
      `SELECT channel, ${instantOf(stretch)} AS "at", raw, received_at, batch, "at" AS stamp FROM ${table}
       WHERE ${[...chosen, ...within('"at"', bounds)].join(' AND ')}`,
    ]
  })
  if (stretches.length === 0)
    return `SELECT channel, "at", raw, received_at, batch, "at" AS stamp FROM ${table} WHERE false`
  const inWindow = within('"at"', window)
  const all = `SELECT * FROM (${stretches.join('\n UNION ALL ')})${inWindow.length === 0 ? '' : ` WHERE ${inWindow.join(' AND ')}`}`
  if (!mayMeet(settings)) return all
  return `SELECT * FROM (
     ${all}
     QUALIFY row_number() OVER (PARTITION BY channel, "at" ORDER BY received_at, stamp) = 1)`
}

const instantOf = ({ setting }: ClockStretch): string =>
  setting === null
    ? '"at"'
    : `make_timestamp(epoch_us("at") + 1000 * ${addedMsSql(setting, '(epoch_us("at")::double / 1000)')})`

function instantLiteral(atEpochMs: number): string {
  assert(Number.isFinite(atEpochMs), `a window of readings is bounded by ${atEpochMs}`)
  return timestampLiteral(Math.round(atEpochMs * 1000))
}
