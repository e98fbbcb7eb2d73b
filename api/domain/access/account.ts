import type { Membership } from './membership.ts'
import type { Role } from './permissions.ts'

/** A person who may sign in. Never removed, because records carry the name: disabled instead. */
export interface Account {
  readonly id: string
  /** By which records are signed. */
  readonly name: string
  /** As typed to sign in, in lower case. */
  readonly signInName: string
  readonly createdAtEpochMs: number
  /** Null: may sign in. */
  readonly disabledAtEpochMs: number | null
  readonly memberships: readonly Membership[]
}

/** One device on which a person signed in. Its token is known to the device alone; here is the SHA-256 of it, hex. */
export interface Session {
  readonly id: string
  readonly sha256: string
  readonly account: string
  /** What the device said of itself, for a person to recognise it by. */
  readonly device: string
  readonly createdAtEpochMs: number
  readonly lastSeenAtEpochMs: number
  readonly expiresAtEpochMs: number
  readonly endedAtEpochMs: number | null
}

/** A link that lets one person make one account; here is the SHA-256 (hex) of its token. */
export interface Invitation extends Membership {
  readonly sha256: string
  readonly role: Role
  readonly expiresAtEpochMs: number
  readonly usedAtEpochMs: number | null
  /** Account that made it: it invites no longer than that account may. Null: the server did. */
  readonly maker: string | null
}
