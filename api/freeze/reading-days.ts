import { createHash } from 'node:crypto'
import { knownBySql } from '#domain/receipt/known-by.ts'
import type { ReceiptBound } from '../store/frozen-set-verbs.ts'
import { queryRows, timestampLiteral } from '../store/query-rows.ts'
import type { Store } from '../store/store.ts'

/** What the readings of a UTC day are, within a bound of receipt and beyond it. */
interface ReadingDay {
  readonly dayEpochMs: number
  readonly within: number
  /** Over channel, instant, raw value and receipt of those within; order does not matter. */
  readonly digest: string
  readonly beyond: number
  readonly firstMicros: number | null
  readonly lastMicros: number | null
}

const dayMs = 86_400_000

export interface ReadingDays {
  /** First instant of the readings within the bound and, exclusive, the last; null: there are none. */
  readonly instants: { readonly fromEpochMs: number; readonly untilEpochMs: number } | null
  /** Whether any reading lies beyond the bound. */
  readonly anyBeyond: boolean
  /** Whether a reading beyond the bound has its instant in a stretch, taken in whole days. */
  beyondIn(fromEpochMs: number, untilEpochMs: number): boolean
  /** Hash of the readings within the bound whose instants are in a stretch, taken in whole days. */
  hashOf(fromEpochMs: number, untilEpochMs: number): string
}

/** The readings of a site by day, in one pass over them. */
export async function readingDays(store: Store, site: string, bound: ReceiptBound): Promise<ReadingDays> {
  const connection = await store.connect()
  try {
    await store.exposeReadings(connection, 'day_reading', { site })
    const days = await queryRows<ReadingDay>(
      connection,
      `select epoch_ms(date_trunc('day', "at")) as "dayEpochMs", count(*) filter (is_within) as within,
         coalesce(bit_xor(hash(channel, "at", raw, received_at)) filter (is_within), 0)::varchar as digest,
         count(*) filter (not is_within) as beyond,
         epoch_us(min("at") filter (is_within)) as "firstMicros", epoch_us(max("at") filter (is_within)) as "lastMicros"
       from (
         select *, ${knownBySql('received_at', timestampLiteral(bound.receivedUntilEpochMs * 1000))}
           and batch <= ${Math.round(bound.throughBatch)} as is_within
         from day_reading)
       group by 1 order by 1`,
    )
    return {
      instants: instantsOf(days),
      anyBeyond: days.some(({ beyond }) => beyond > 0),
      beyondIn: (fromEpochMs, untilEpochMs) =>
        daysIn(days, fromEpochMs, untilEpochMs).some(({ beyond }) => beyond > 0),
      hashOf(fromEpochMs, untilEpochMs) {
        const hash = createHash('sha256')
        for (const { dayEpochMs, within, digest } of daysIn(days, fromEpochMs, untilEpochMs))
          if (within > 0) hash.update(`${dayEpochMs} ${within} ${digest}\n`)
        return hash.digest('hex')
      },
    }
  } finally {
    connection.closeSync()
  }
}

const daysIn = (days: readonly ReadingDay[], fromEpochMs: number, untilEpochMs: number) =>
  days.filter(({ dayEpochMs }) => dayEpochMs + dayMs > fromEpochMs && dayEpochMs < untilEpochMs)

function instantsOf(days: readonly ReadingDay[]): ReadingDays['instants'] {
  const own = days.filter(({ within }) => within > 0)
  const first = own.at(0)?.firstMicros
  const last = own.at(-1)?.lastMicros
  if (first == null || last == null) return null
  // As `touchedSince` gives them, so that the same months are published.
  return { fromEpochMs: Math.floor(first / 1000), untilEpochMs: Math.floor(last / 1000) + 1 }
}
