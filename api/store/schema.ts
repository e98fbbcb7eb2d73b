import type { DuckDBConnection } from '@duckdb/node-api'
import type { ProposalKind } from '#domain/proposals/proposal-kinds.ts'

/**
 * The tables of the data file, one list of statements a version. A version that has been released is
 * never edited: a change is a new list at the end. The site leads every key.
 *
 * `reading` has no index on purpose: with a primary key (site, channel, at) 2.6 million readings in 160 batches
 * went in at 0.46 million a second instead of 1.1, the longest commit took 195 ms instead of 125, and a reading
 * took 43 bytes instead of 4. It is not needed, because a commit is the only writer and checks the key itself.
 * Rows lie batch by batch, so that a time window skips most of the others by their least and greatest instants.
 */
const migrations: readonly (readonly string[])[] = [
  [
    `CREATE TABLE site (number INTEGER PRIMARY KEY, slug VARCHAR NOT NULL UNIQUE)`,
    // A null body marks the record as withdrawn from that version on.
    `CREATE TABLE record (
      site INTEGER NOT NULL, kind VARCHAR NOT NULL, key VARCHAR NOT NULL, version INTEGER NOT NULL,
      recorded_at TIMESTAMP NOT NULL, author VARCHAR NOT NULL, reason VARCHAR NOT NULL, body JSON,
      PRIMARY KEY (site, kind, key, version))`,
    `CREATE TABLE channel (
      site INTEGER NOT NULL, number INTEGER NOT NULL, logger VARCHAR NOT NULL, name VARCHAR NOT NULL,
      PRIMARY KEY (site, number), UNIQUE (site, logger, name))`,
    `CREATE TABLE series (
      site INTEGER NOT NULL, number INTEGER NOT NULL, id VARCHAR NOT NULL,
      PRIMARY KEY (site, number), UNIQUE (site, id))`,
    `CREATE TABLE batch (
      site INTEGER NOT NULL, number INTEGER NOT NULL, file_name VARCHAR NOT NULL, sha256 VARCHAR NOT NULL,
      bytes BIGINT NOT NULL, received_at TIMESTAMP NOT NULL, sender VARCHAR NOT NULL,
      layout VARCHAR, layout_version INTEGER, outcome VARCHAR NOT NULL, message VARCHAR,
      accepted BIGINT NOT NULL, repeated BIGINT NOT NULL, conflicting BIGINT NOT NULL,
      quarantined BIGINT NOT NULL, absent BIGINT NOT NULL, first_at TIMESTAMP, last_at TIMESTAMP,
      PRIMARY KEY (site, number))`,
    `CREATE TABLE reading (
      site INTEGER NOT NULL, channel INTEGER NOT NULL, "at" TIMESTAMP NOT NULL, raw DOUBLE NOT NULL,
      received_at TIMESTAMP NOT NULL, batch INTEGER NOT NULL)`,
    `CREATE TABLE conflict (
      site INTEGER NOT NULL, batch INTEGER NOT NULL, channel INTEGER NOT NULL, "at" TIMESTAMP NOT NULL,
      kept_raw DOUBLE NOT NULL, offered_raw DOUBLE NOT NULL)`,
    `CREATE TABLE quarantined (
      site INTEGER NOT NULL, batch INTEGER NOT NULL, line BIGINT NOT NULL, "column" VARCHAR, code VARCHAR NOT NULL,
      message VARCHAR NOT NULL, value VARCHAR NOT NULL, readings BIGINT NOT NULL)`,
    `CREATE TABLE superseded (
      site INTEGER NOT NULL, batch INTEGER NOT NULL, by_batch INTEGER NOT NULL, PRIMARY KEY (site, batch, by_batch))`,
    // One row a revision; a change of records has no instants.
    `CREATE TABLE change (
      site INTEGER NOT NULL, revision INTEGER NOT NULL, batch INTEGER, first_at TIMESTAMP, last_at TIMESTAMP,
      PRIMARY KEY (site, revision))`,
  ],
  [
    // Canonical JSON as text: what arrives again is compared letter by letter.
    `CREATE TABLE field_entry (
      site INTEGER NOT NULL, number INTEGER NOT NULL, id VARCHAR NOT NULL, received_at TIMESTAMP NOT NULL,
      differs BOOLEAN NOT NULL, body VARCHAR NOT NULL,
      PRIMARY KEY (site, number))`,
    // One row for every arrival of an entry, of an attachment of it (both without effect), and for every effect.
    `CREATE TABLE field_change (
      site INTEGER NOT NULL, change INTEGER NOT NULL, entry INTEGER NOT NULL, effect VARCHAR,
      PRIMARY KEY (site, change))`,
    `CREATE TABLE attachment (
      site INTEGER NOT NULL, sha256 VARCHAR NOT NULL, bytes BIGINT NOT NULL, media_type VARCHAR NOT NULL,
      received_at TIMESTAMP NOT NULL,
      PRIMARY KEY (site, sha256))`,
  ],
  [
    // Of the server, not of a site. Tokens are here as SHA-256, passwords as argon2id.
    `CREATE TABLE account (
      id VARCHAR PRIMARY KEY, name VARCHAR NOT NULL, sign_in_name VARCHAR NOT NULL UNIQUE,
      password_hash VARCHAR NOT NULL, created_at TIMESTAMP NOT NULL, disabled_at TIMESTAMP)`,
    // A site by its id, or * for every site; no role is no row.
    `CREATE TABLE membership (
      account VARCHAR NOT NULL, site VARCHAR NOT NULL, role VARCHAR NOT NULL, PRIMARY KEY (account, site))`,
    `CREATE TABLE invitation (
      sha256 VARCHAR PRIMARY KEY, site VARCHAR NOT NULL, role VARCHAR NOT NULL,
      expires_at TIMESTAMP NOT NULL, used_at TIMESTAMP)`,
    `CREATE TABLE session (
      id VARCHAR PRIMARY KEY, sha256 VARCHAR NOT NULL UNIQUE, account VARCHAR NOT NULL, device VARCHAR NOT NULL,
      created_at TIMESTAMP NOT NULL, last_seen_at TIMESTAMP NOT NULL, expires_at TIMESTAMP NOT NULL,
      ended_at TIMESTAMP)`,
  ],
  [
    // Account whose session delivered an entry; null where there were no accounts.
    'ALTER TABLE field_entry ADD COLUMN sender VARCHAR',
  ],
  [
    // What happened to an alert, as JSON; by null: the server.
    `CREATE TABLE alert_event (
      site INTEGER NOT NULL, number INTEGER NOT NULL, alert INTEGER NOT NULL, "at" TIMESTAMP NOT NULL,
      "by" VARCHAR, body VARCHAR NOT NULL, PRIMARY KEY (site, number))`,
  ],
  [
    // A removed webhook keeps its row, not its secrets.
    `CREATE TABLE webhook (
      site INTEGER NOT NULL, id VARCHAR NOT NULL, name VARCHAR NOT NULL, url VARCHAR NOT NULL, kinds VARCHAR NOT NULL,
      made_by VARCHAR NOT NULL, made_at TIMESTAMP NOT NULL, disabled_at TIMESTAMP, disabled_why VARCHAR,
      removed_at TIMESTAMP,
      PRIMARY KEY (site, id))`,
    // Sealed under a key that is not in the store.
    `CREATE TABLE webhook_secret (
      site INTEGER NOT NULL, webhook VARCHAR NOT NULL, sealed VARCHAR NOT NULL, made_at TIMESTAMP NOT NULL,
      ends_at TIMESTAMP)`,
    `CREATE TABLE push_subscription (
      id VARCHAR PRIMARY KEY, account VARCHAR NOT NULL, session VARCHAR NOT NULL, device VARCHAR NOT NULL,
      endpoint VARCHAR NOT NULL, p256dh VARCHAR NOT NULL, auth VARCHAR NOT NULL, made_at TIMESTAMP NOT NULL)`,
  ],
  [
    // Every change of a record or a state, in one chain over all sites; only ever appended. A site by its id.
    `CREATE TABLE audit (
      number BIGINT NOT NULL, site VARCHAR, "at" TIMESTAMP NOT NULL, account VARCHAR, name VARCHAR NOT NULL,
      action VARCHAR NOT NULL, subject_kind VARCHAR NOT NULL, subject_key VARCHAR NOT NULL, version INTEGER,
      "before" VARCHAR, "after" VARCHAR, why VARCHAR NOT NULL, hash VARCHAR NOT NULL)`,
  ],
  [
    // Keys of people, programs and links. Tokens and recovery codes are here as SHA-256, the secret of one-time codes sealed.
    `CREATE TABLE password_link (
      sha256 VARCHAR PRIMARY KEY, account VARCHAR NOT NULL, expires_at TIMESTAMP NOT NULL, used_at TIMESTAMP)`,
    `CREATE TABLE second_factor (
      account VARCHAR PRIMARY KEY, sealed VARCHAR NOT NULL, begun_at TIMESTAMP NOT NULL, confirmed_at TIMESTAMP,
      last_step BIGINT NOT NULL)`,
    `CREATE TABLE recovery_code (
      account VARCHAR NOT NULL, sha256 VARCHAR NOT NULL, used_at TIMESTAMP, PRIMARY KEY (account, sha256))`,
    `CREATE TABLE passkey (
      id VARCHAR PRIMARY KEY, account VARCHAR NOT NULL, name VARCHAR NOT NULL, host VARCHAR NOT NULL,
      public_key VARCHAR NOT NULL, counter BIGINT NOT NULL, created_at TIMESTAMP NOT NULL, last_used_at TIMESTAMP)`,
    `CREATE TABLE ingest_token (
      id VARCHAR PRIMARY KEY, sha256 VARCHAR NOT NULL UNIQUE, site VARCHAR NOT NULL, name VARCHAR NOT NULL,
      maker VARCHAR NOT NULL, created_at TIMESTAMP NOT NULL, last_used_at TIMESTAMP, revoked_at TIMESTAMP)`,
    `CREATE TABLE share_link (
      id VARCHAR PRIMARY KEY, sha256 VARCHAR NOT NULL UNIQUE, site VARCHAR NOT NULL, maker VARCHAR NOT NULL,
      created_at TIMESTAMP NOT NULL, expires_at TIMESTAMP NOT NULL, last_used_at TIMESTAMP, revoked_at TIMESTAMP)`,
  ],
  [
    // Changes of trigger levels that wait for a second person, as JSON; a decision is final.
    ...tablesOfProposals('level'),
  ],
  [
    // Account that made a link: it does no more than its maker may. Null: the server, or a version before this one.
    'ALTER TABLE invitation ADD COLUMN maker VARCHAR',
    'ALTER TABLE password_link ADD COLUMN maker VARCHAR',
  ],
  [
    // Frozen data sets, whose files lie beside the data file: the set as JSON, and what the site had come to.
    `CREATE TABLE frozen_set (
      site INTEGER NOT NULL, id VARCHAR NOT NULL, cut_off TIMESTAMP NOT NULL, "at" TIMESTAMP NOT NULL,
      body VARCHAR NOT NULL, mark VARCHAR NOT NULL, PRIMARY KEY (site, id))`,
  ],
  [
    // Reports that were given out; manifest and hashes of the files as JSON. Never changed.
    `CREATE TABLE report (
      site INTEGER NOT NULL, id INTEGER NOT NULL, kind VARCHAR NOT NULL, number INTEGER NOT NULL, "at" TIMESTAMP NOT NULL,
      author VARCHAR NOT NULL, account VARCHAR, body VARCHAR NOT NULL,
      PRIMARY KEY (site, id), UNIQUE (site, kind, number))`,
  ],
  [
    // Corrections offered for the record, which wait for a second person, as JSON; what became of one is final.
    ...tablesOfProposals('correction'),
  ],
]

/** Statements that make the tables of one kind of proposal. As they stand they are part of released versions. */
function tablesOfProposals(kind: ProposalKind): readonly string[] {
  return [
    `CREATE TABLE ${kind}_proposal (
      site INTEGER NOT NULL, number INTEGER NOT NULL, "at" TIMESTAMP NOT NULL, author VARCHAR NOT NULL,
      account VARCHAR, body VARCHAR NOT NULL, PRIMARY KEY (site, number))`,
    `CREATE TABLE ${kind}_decision (
      site INTEGER NOT NULL, proposal INTEGER NOT NULL, "at" TIMESTAMP NOT NULL, kind VARCHAR NOT NULL,
      "by" VARCHAR NOT NULL, account VARCHAR, reason VARCHAR NOT NULL, PRIMARY KEY (site, proposal))`,
  ]
}

export const schemaVersion = migrations.length

/** Brings the data file to `schemaVersion` in one transaction; refuses a file of a newer version or of something else. */
export async function migrate(connection: DuckDBConnection, file: string): Promise<void> {
  const found = await foundVersion(connection)
  if (found === null)
    throw new Error(
      `${file} is a database, but not one of Stillground's. Name another data folder, or move this file away.`,
    )
  if (found > schemaVersion)
    throw new Error(
      `${file} was written by a newer version of Stillground (schema ${found}; this one knows ${schemaVersion}). Start the newer version.`,
    )
  if (found === schemaVersion) return
  await connection.run('BEGIN')
  await connection.run('CREATE TABLE IF NOT EXISTS schema_version (version INTEGER NOT NULL)')
  for (const statements of migrations.slice(found)) for (const sql of statements) await connection.run(sql)
  await connection.run('DELETE FROM schema_version')
  await connection.run(`INSERT INTO schema_version VALUES (${schemaVersion})`)
  await connection.run('COMMIT')
}

/** 0 for an empty file, null for a database that is not ours. */
async function foundVersion(connection: DuckDBConnection): Promise<number | null> {
  const reader = await connection.runAndReadAll(
    'SELECT table_name FROM duckdb_tables() WHERE database_name = current_database()',
  )
  const tables = reader.getRows().map(([name]) => String(name))
  if (tables.length === 0) return 0
  if (!tables.includes('schema_version')) return null
  const versions = await connection.runAndReadAll('SELECT version FROM schema_version')
  return Number(versions.getRows()[0]?.[0])
}
