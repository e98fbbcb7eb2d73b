import type { DuckDBConnection } from '@duckdb/node-api'
import { knownBySql } from '#domain/receipt/known-by.ts'
import { queryRows, timestampLiteral } from '../store/query-rows.ts'
import type { Store } from '../store/store.ts'

export interface LoggerWindow {
  readonly site: string
  /** Nothing received later is counted. */
  readonly asOfEpochMs: number
  readonly fromEpochMs: number
  /** Since when channels count as heard. */
  readonly lately: number
  /** Minutes after which each logger counts as late. */
  readonly lateAfterMinutes: ReadonlyMap<string, number>
}

export interface MeasuredLoggers {
  readonly days: readonly {
    readonly logger: string
    readonly dayEpochMs: number
    readonly held: number
    readonly inTime: number
    readonly leastDelaySeconds: number
    readonly medianDelaySeconds: number
  }[]
  readonly last: readonly {
    readonly logger: string
    readonly lastStampEpochMs: number
    readonly lastReceivedEpochMs: number
  }[]
  readonly channels: readonly {
    readonly logger: string
    readonly channel: string
    readonly lastStampEpochMs: number
    readonly readings: number
  }[]
  readonly batches: readonly { readonly logger: string; readonly batch: number; readonly readings: number }[]
}

const dayMs = 86_400_000
/** A clock that runs fast stamps ahead of its receipt. */
const aheadMs = dayMs

/**
 * What the store tells of each logger: readings of one stamp count once, received when the first of them was. Delays are
 * receipt less stamp. One pass over the days looked at; only loggers silent for all of them cost a look at everything.
 */
export async function measureLoggers(store: Store, window: LoggerWindow): Promise<MeasuredLoggers> {
  const connection = await store.connect()
  try {
    const { site, asOfEpochMs, fromEpochMs } = window
    await writeLoggers(connection, store, window)
    await store.exposeReadings(connection, 'seen', {
      site,
      fromEpochMs,
      untilEpochMs: asOfEpochMs + aheadMs,
    })
    await connection.run(`
      create or replace temp table scan as
      select logger, "at", min(received_at) as received, min(cutoff) as cutoff, min(late_s) as late_s
      from seen join logger_channel using (channel)
      where ${knownBySql('received_at', literal(asOfEpochMs))}
      group by logger, "at"`)
    const days = await queryRows<MeasuredLoggers['days'][number]>(
      connection,
      `select logger, epoch_ms(date_trunc('day', "at")) as "dayEpochMs",
         count(*) filter (where "at" < cutoff)::integer as "held",
         count(*) filter (where "at" < cutoff and epoch(received) - epoch("at") <= late_s)::integer as "inTime",
         min(epoch(received) - epoch("at")) as "leastDelaySeconds",
         median(epoch(received) - epoch("at")) as "medianDelaySeconds"
       from scan group by all order by logger, 2`,
    )
    const lastOf = `select logger, epoch_ms(max("at")) as "lastStampEpochMs", epoch_ms(max(received)) as "lastReceivedEpochMs"`
    const last = await queryRows<MeasuredLoggers['last'][number]>(
      connection,
      `${lastOf} from scan group by logger order by logger`,
    )
    const heard = new Set(last.map(({ logger }) => logger))
    const silent = [...window.lateAfterMinutes.keys()].filter((logger) => !heard.has(logger))
    const lately = `seen join logger_channel using (channel)
      where ${knownBySql('received_at', literal(asOfEpochMs))} and "at" >= ${literal(window.lately)}`
    return {
      days,
      last:
        silent.length === 0 ? last : [...last, ...(await lastOfSilent(connection, store, window, lastOf))],
      channels: await queryRows(
        connection,
        `select logger, name as channel, epoch_ms(max("at")) as "lastStampEpochMs", count(*)::integer as readings
         from ${lately} group by logger, name order by logger, name`,
      ),
      batches: await queryRows(
        connection,
        `select logger, batch, count(*)::integer as readings from seen join logger_channel using (channel)
         where ${knownBySql('received_at', literal(asOfEpochMs))} group by logger, batch order by logger, batch`,
      ),
    }
  } finally {
    connection.closeSync()
  }
}

async function lastOfSilent(
  connection: DuckDBConnection,
  store: Store,
  { site, asOfEpochMs, fromEpochMs }: LoggerWindow,
  lastOf: string,
): Promise<MeasuredLoggers['last']> {
  await store.exposeReadings(connection, 'ever', { site, untilEpochMs: fromEpochMs })
  return queryRows(
    connection,
    `${lastOf} from (
       select logger, "at", received_at as received from ever join logger_channel using (channel)
       where ${knownBySql('received_at', literal(asOfEpochMs))} and logger not in (select logger from scan))
     group by logger order by logger`,
  )
}

async function writeLoggers(connection: DuckDBConnection, store: Store, window: LoggerWindow): Promise<void> {
  await connection.run(
    'create or replace temp table logger_channel (channel integer, logger varchar, name varchar, cutoff timestamp, late_s double)',
  )
  const channels = await store.listChannels(window.site)
  if (channels.length === 0) return
  const rows = channels.map((one) => {
    const minutes = window.lateAfterMinutes.get(one.logger) ?? 0
    return `(${one.channel}, ${text(one.logger)}, ${text(one.name)}, ${literal(window.asOfEpochMs - minutes * 60_000)}, ${minutes * 60})`
  })
  await connection.run(`insert into logger_channel values ${rows.join(', ')}`)
}

const literal = (atEpochMs: number) => timestampLiteral(atEpochMs * 1000)
const text = (value: string) => `'${value.replaceAll("'", "''")}'`
