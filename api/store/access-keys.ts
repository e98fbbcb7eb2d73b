import type { AccessKeyVerbs } from './access-key-verbs.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { createIngestTokens } from './ingest-tokens.ts'
import { createPasskeys } from './passkeys.ts'
import { createPasswords } from './passwords.ts'
import { createSecondFactors } from './second-factors.ts'
import { createShareLinks } from './share-links.ts'

/** Everything by which somebody is let in besides accounts and sessions. */
export const createAccessKeys = (file: DuckdbFile): AccessKeyVerbs => ({
  ...createPasswords(file),
  ...createSecondFactors(file),
  ...createPasskeys(file),
  ...createIngestTokens(file),
  ...createShareLinks(file),
})
