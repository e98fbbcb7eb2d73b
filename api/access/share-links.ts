import { randomUUID } from 'node:crypto'
import type { ShareLink } from '#domain/access/access-keys.ts'
import { mayAt } from '#domain/access/membership.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import type { Store } from '../store/store.ts'
import { noteUseEveryMs } from './ingest-tokens.ts'
import { makeSecretToken, sha256OfToken } from './secret-token.ts'

/** A link by which somebody reads. */
export interface OpenLink {
  readonly link: ShareLink
  /** Who made it. */
  readonly makerName: string
}

/** Links that let whoever has one read a site until they expire. */
export interface ShareLinks {
  list(site: string): Promise<readonly ShareLink[]>
  /** Makes one and tells its token: the only time that it is known. */
  make(site: string, maker: string, lastsMs: number): Promise<{ token: string; expiresAtEpochMs: number }>
  /**
   * One that reads, noted as used; null: it has expired, was revoked, never was, or whoever made it may make none at
   * that site any more.
   */
  find(token: string): Promise<OpenLink | null>
  revoke(site: string, id: string, by: Actor): Promise<boolean>
}

export function createShareLinks({
  store,
  now,
}: {
  readonly store: Store
  readonly now: () => number
}): ShareLinks {
  return {
    list: (site) => store.listShareLinks(site),

    async make(site, maker, lastsMs) {
      const { token, sha256 } = makeSecretToken()
      const createdAtEpochMs = now()
      const expiresAtEpochMs = createdAtEpochMs + lastsMs
      await store.addShareLink({ id: randomUUID(), sha256, site, maker, createdAtEpochMs, expiresAtEpochMs })
      return { token, expiresAtEpochMs }
    },

    async find(token) {
      const found = await store.findShareLink(sha256OfToken(token))
      if (!found) return null
      const { link, maker } = found
      if (link.revokedAtEpochMs !== null || link.expiresAtEpochMs <= now()) return null
      if (maker.disabledAtEpochMs !== null || !mayAt(maker.memberships, link.site, 'change-records'))
        return null
      if (now() - (link.lastUsedAtEpochMs ?? 0) > noteUseEveryMs) await store.usedShareLink(link.id, now())
      return { link, makerName: maker.name }
    },

    revoke: (site, id, by) => store.revokeShareLink(site, id, now(), by),
  }
}
