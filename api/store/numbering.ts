import type { DuckDBConnection } from '@duckdb/node-api'
import type { DuckdbFile } from './duckdb-file.ts'
import { queryRows } from './query-rows.ts'
import type { ChannelKey } from './store.ts'

/** The small whole numbers that stand for sites, channels and series inside the store; given once, never reused. */
export interface Numbering {
  /** Null for a site never heard of. */
  findSite(slug: string): Promise<number | null>
  /** Gives the site a number when it has none. */
  siteNumber(slug: string): Promise<number>
  channelNumbers(slug: string, keys: readonly { logger: string; name: string }[]): Promise<readonly number[]>
  seriesNumbers(slug: string, ids: readonly string[]): Promise<readonly number[]>
  listChannels(slug: string): Promise<readonly ChannelKey[]>
  /** Highest channel number given on a site. */
  highestChannel(site: number): Promise<number>
}

export function createNumbering(file: DuckdbFile): Numbering {
  // Filled from the file on first use and only after a commit, so a failed one leaves them true.
  const sites = new Map<string, number>()
  const channels = new Map<number, Map<string, number>>()
  const series = new Map<number, Map<string, number>>()

  const findSite = async (slug: string) => {
    const known = sites.get(slug)
    if (known !== undefined) return known
    const found = await selectSite(file.reader, slug)
    if (found !== null) sites.set(slug, found)
    return found
  }
  const siteNumber = async (slug: string) => {
    const known = await findSite(slug)
    if (known !== null) return known
    const made = await file.transact(async (connection) => {
      const meanwhile = await selectSite(connection, slug)
      if (meanwhile !== null) return meanwhile
      await connection.run('INSERT INTO site SELECT coalesce(max(number), 0) + 1, $slug FROM site', { slug })
      return selectSite(connection, slug)
    })
    sites.set(slug, made as number)
    return made as number
  }
  const numbersIn = async (
    kind: NumberedKind,
    cache: Map<number, Map<string, number>>,
    site: number,
    keys: readonly string[],
  ) => {
    let known = cache.get(site)
    if (known === undefined || keys.some((key) => !known?.has(key))) {
      const wanted = known === undefined ? await selectNumbers(file.reader, kind, site) : known
      known = keys.some((key) => !wanted.has(key))
        ? await file.transact((connection) => addNumbers(connection, kind, site, keys))
        : wanted
      cache.set(site, known)
    }
    const numbers = known
    return keys.map((key) => numbers.get(key) as number)
  }

  return {
    findSite,
    siteNumber,
    async channelNumbers(slug, keys) {
      const site = await siteNumber(slug)
      return numbersIn(
        'channel',
        channels,
        site,
        keys.map(({ logger, name }) => JSON.stringify([logger, name])),
      )
    },
    async seriesNumbers(slug, ids) {
      return numbersIn(
        'series',
        series,
        await siteNumber(slug),
        ids.map((id) => JSON.stringify([id])),
      )
    },
    async listChannels(slug) {
      const site = await findSite(slug)
      if (site === null) return []
      return queryRows<ChannelKey>(
        file.reader,
        'SELECT number AS channel, logger, name FROM channel WHERE site = $site ORDER BY number',
        { site },
      )
    },
    async highestChannel(site) {
      const known = channels.get(site)
      if (known !== undefined) return known.size
      const [row] = await queryRows<{ highest: number }>(
        file.reader,
        'SELECT coalesce(max(number), 0) AS highest FROM channel WHERE site = $site',
        { site },
      )
      return row?.highest ?? 0
    },
  }
}

type NumberedKind = 'channel' | 'series'

/** Columns that name a thing; in memory it goes by the JSON array of them. */
const nameColumns = { channel: ['logger', 'name'], series: ['id'] } as const

async function selectSite(connection: DuckDBConnection, slug: string): Promise<number | null> {
  const [row] = await queryRows<{ number: number }>(
    connection,
    'SELECT number FROM site WHERE slug = $slug',
    { slug },
  )
  return row?.number ?? null
}

async function selectNumbers(
  connection: DuckDBConnection,
  kind: NumberedKind,
  site: number,
): Promise<Map<string, number>> {
  const columns = nameColumns[kind]
  const rows = await queryRows<Record<string, string | number>>(
    connection,
    `SELECT number, ${columns.join(', ')} FROM ${kind} WHERE site = $site ORDER BY number`,
    { site },
  )
  return new Map(
    rows.map((row) => [JSON.stringify(columns.map((column) => row[column])), row.number as number]),
  )
}

async function addNumbers(
  connection: DuckDBConnection,
  kind: NumberedKind,
  site: number,
  keys: readonly string[],
): Promise<Map<string, number>> {
  const numbers = await selectNumbers(connection, kind, site)
  const rows: Record<string, unknown>[] = []
  for (const key of keys) {
    if (numbers.has(key)) continue
    const number = numbers.size + 1
    numbers.set(key, number)
    const names: string[] = JSON.parse(key)
    rows.push({ number, ...Object.fromEntries(nameColumns[kind].map((column, i) => [column, names[i]])) })
  }
  const columns = nameColumns[kind]
  const shape = JSON.stringify([
    { number: 'INTEGER', ...Object.fromEntries(columns.map((column) => [column, 'VARCHAR'])) },
  ])
  await connection.run(
    `INSERT INTO ${kind} SELECT $site, number, ${columns.join(', ')}
     FROM (SELECT unnest(from_json($rows, '${shape}'), recursive := true))`,
    { site, rows: JSON.stringify(rows) },
  )
  return numbers
}
