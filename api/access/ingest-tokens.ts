import { randomUUID } from 'node:crypto'
import type { IngestToken } from '#domain/access/access-keys.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import type { Store } from '../store/store.ts'
import { makeSecretToken, sha256OfToken } from './secret-token.ts'

/** Tokens for programs, each for one site and for adding readings alone. */
export interface IngestTokens {
  list(site: string): Promise<readonly IngestToken[]>
  /** Makes one and tells it: the only time that it is known. */
  make(site: string, name: string, maker: string): Promise<{ id: string; token: string }>
  /** One that was not revoked, noted as used; null: there is none. */
  find(token: string): Promise<IngestToken | null>
  revoke(site: string, id: string, by: Actor): Promise<boolean>
}

/** A use is noted so often at most: not every file is to write. */
export const noteUseEveryMs = 60_000

export function createIngestTokens({
  store,
  now,
}: {
  readonly store: Store
  readonly now: () => number
}): IngestTokens {
  return {
    list: (site) => store.listIngestTokens(site),

    async make(site, name, maker) {
      const { token, sha256 } = makeSecretToken()
      const id = randomUUID()
      await store.addIngestToken({ id, sha256, site, name, maker, createdAtEpochMs: now() })
      return { id, token }
    },

    async find(token) {
      const found = await store.findIngestToken(sha256OfToken(token))
      if (!found || found.revokedAtEpochMs !== null) return null
      if (now() - (found.lastUsedAtEpochMs ?? 0) > noteUseEveryMs)
        await store.usedIngestToken(found.id, now())
      return found
    },

    revoke: (site, id, by) => store.revokeIngestToken(site, id, now(), by),
  }
}
