import type { DuckDBConnection } from '@duckdb/node-api'
import { ChannelSpans } from './channel-spans.ts'
import { queryRows } from './query-rows.ts'

/** Spans of the readings already stored, by site; read once from the file, then kept up by each commit. */
export interface StoredSpans {
  /** Inside a transaction: as of its beginning. */
  of(connection: DuckDBConnection, site: number): Promise<ChannelSpans>
  /** After a commit. */
  widen(site: number, by: ChannelSpans): void
  /** After a failure, when what the file holds is in doubt. */
  forget(site: number): void
}

export function createStoredSpans(): StoredSpans {
  const bySite = new Map<number, ChannelSpans>()
  return {
    async of(connection, site) {
      const known = bySite.get(site)
      if (known !== undefined) return known
      const rows = await queryRows<{ channel: number; first: number; last: number }>(
        connection,
        `SELECT channel, epoch_us(min("at")) AS first, epoch_us(max("at")) AS last
         FROM reading WHERE site = $site GROUP BY channel ORDER BY channel DESC`,
        { site },
      )
      const spans = new ChannelSpans()
      for (const { channel, first, last } of rows) spans.widen(channel, first, last)
      bySite.set(site, spans)
      return spans
    },
    widen(site, by) {
      bySite.get(site)?.merge(by)
    },
    forget(site) {
      bySite.delete(site)
    },
  }
}
