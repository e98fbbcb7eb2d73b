/** A link by which one person sets a new password once; here is the SHA-256 (hex) of its token. */
export interface PasswordLink {
  readonly sha256: string
  readonly account: string
  readonly expiresAtEpochMs: number
  readonly usedAtEpochMs: number | null
  /** Account that made it: it holds no longer than that account governs the other. Null: the server did. */
  readonly maker: string | null
}

/** Time-based codes of an account (RFC 6238). They are asked for once they are confirmed by one of them. */
export interface SecondFactor {
  readonly account: string
  /** The shared secret, sealed with the server's key. */
  readonly sealed: string
  readonly begunAtEpochMs: number
  /** Null: not confirmed yet, and not asked for. */
  readonly confirmedAtEpochMs: number | null
  /** Step of the newest code that was accepted (30 s since 1970); neither it nor an earlier one is accepted again. */
  readonly lastStep: number
}

/** A public key with which a device signs in for an account (Web Authentication). */
export interface Passkey {
  /** Credential id, base64url. */
  readonly id: string
  readonly account: string
  /** As its person calls it. */
  readonly name: string
  /** Host name for which alone the device gives it out. */
  readonly host: string
  /** COSE key, base64url. */
  readonly publicKey: string
  /** How often the device says that it was used; many always say 0. */
  readonly counter: number
  readonly createdAtEpochMs: number
  readonly lastUsedAtEpochMs: number | null
}

/** With which one program adds readings at one site and does nothing else; here is the SHA-256 (hex) of it. */
export interface IngestToken {
  readonly id: string
  readonly sha256: string
  readonly site: string
  readonly name: string
  /** Account that made it. */
  readonly maker: string
  readonly createdAtEpochMs: number
  readonly lastUsedAtEpochMs: number | null
  readonly revokedAtEpochMs: number | null
}

/** Lets whoever has it read one site as a viewer until it expires; here is the SHA-256 (hex) of its token. */
export interface ShareLink {
  readonly id: string
  readonly sha256: string
  readonly site: string
  /** Account that made it; it reads no longer than that account may make links. */
  readonly maker: string
  readonly createdAtEpochMs: number
  readonly expiresAtEpochMs: number
  readonly lastUsedAtEpochMs: number | null
  readonly revokedAtEpochMs: number | null
}

/** A share link reads for so long at most. */
export const longestShareMs = 30 * 86_400_000
