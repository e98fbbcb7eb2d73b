import { z } from 'zod'
import { longestShareMs } from '#domain/access/access-keys.ts'

const typedPassword = z.string().max(1000)
const token = z.string().min(1).max(200)
/** What a person calls a passkey or a program. */
const name = z
  .string()
  .trim()
  .min(1)
  .max(60)
  .regex(/^\P{C}*$/u)

/** `PUT /api/me/password`. */
export const passwordChangeSchema = z.strictObject({ oldPassword: typedPassword, password: typedPassword })

/** `POST /api/people/:account/password-link`: the answer, whose path is told this once. */
export interface NewPasswordLink {
  readonly path: string
  readonly expiresAtEpochMs: number
}

/** `POST /api/password-links/look`: answered with whose password it sets. */
export const passwordLinkSchema = z.strictObject({ token })
export interface PasswordLinkOwner {
  readonly name: string
  readonly signInName: string
}

/** `POST /api/password-links/use`: answered with the name to sign in with. */
export const passwordByLinkSchema = z.strictObject({ token, password: typedPassword })

/** `GET /api/me/keys`: by what one signs in besides the password. */
export interface OwnKeys {
  readonly secondFactor: { readonly confirmedAtEpochMs: number; readonly recoveryCodesLeft: number } | null
  /** Whether this server can keep second factors. */
  readonly secondFactorOffered: boolean
  readonly passkeys: readonly PasskeyEntry[]
  /** Those of other devices, newest first. */
  readonly otherSessions: readonly {
    readonly device: string
    readonly createdAtEpochMs: number
    readonly lastSeenAtEpochMs: number
  }[]
  /** Why no passkey can be made or used at this address, and what to do; null: it can. */
  readonly passkeyHindrance: string | null
}

export interface PasskeyEntry {
  readonly id: string
  readonly name: string
  /** Host for which it works. */
  readonly host: string
  readonly createdAtEpochMs: number
  readonly lastUsedAtEpochMs: number | null
}

/**
 * `POST` and `DELETE /api/me/second-factor`, `POST /api/me/passkeys/options`, `DELETE /api/me/passkeys/:passkey`,
 * `DELETE /api/me/other-sessions`.
 */
export const ownPasswordSchema = z.strictObject({ password: typedPassword })

/** What begins a second factor: told this once. */
export interface NewSecondFactor {
  /** Base32. */
  readonly key: string
  /** `otpauth:` address with the key, for a picture that apps read. */
  readonly uri: string
}

/** `PUT /api/me/second-factor`: answered with recovery codes, told this once. */
export const codeSchema = z.strictObject({ code: z.string().max(100) })
export interface RecoveryCodes {
  readonly recoveryCodes: readonly string[]
}

const base64url = z
  .string()
  .max(8192)
  .regex(/^[\w-]*$/)
const credentialFields = {
  id: base64url.min(1),
  rawId: base64url.min(1),
  type: z.literal('public-key'),
  clientExtensionResults: z.record(z.string(), z.unknown()),
}

/** `POST /api/me/passkeys`: what the device made of the options it was given, as browsers write it in JSON. */
export const newPasskeySchema = z.object({
  name,
  response: z.object({
    ...credentialFields,
    response: z.object({ clientDataJSON: base64url, attestationObject: base64url }),
  }),
})

/** `PUT /api/me/passkeys/:passkey`. */
export const passkeyNameSchema = z.strictObject({ name })

/** `POST /api/sessions/by-passkey`. */
export const passkeySignInSchema = z.object({
  response: z.object({
    ...credentialFields,
    response: z.object({
      clientDataJSON: base64url,
      authenticatorData: base64url,
      signature: base64url,
      userHandle: base64url.nullish(),
    }),
  }),
})

/** `POST /api/sites/:site/ingest-tokens`. */
export const newIngestTokenSchema = z.strictObject({ name })
/** The answer: the token is told this once. */
export interface NewIngestToken {
  readonly id: string
  readonly token: string
}
/** `GET /api/sites/:site/ingest-tokens`. */
export interface IngestTokenEntry {
  readonly id: string
  readonly name: string
  readonly makerName: string
  readonly createdAtEpochMs: number
  readonly lastUsedAtEpochMs: number | null
  readonly revokedAtEpochMs: number | null
}

/** `POST /api/sites/:site/share-links`: how long it is to read, whole hours up to 30 days. */
export const newShareLinkSchema = z.strictObject({
  lastsHours: z
    .int()
    .min(1)
    .max(longestShareMs / 3_600_000),
})
/** The answer: the part of the address that opens the link is told this once. */
export interface NewShareLink {
  readonly fragment: string
  readonly expiresAtEpochMs: number
}
/** `GET /api/sites/:site/share-links`. */
export interface ShareLinkEntry {
  readonly id: string
  readonly makerName: string
  readonly createdAtEpochMs: number
  readonly expiresAtEpochMs: number
  readonly lastUsedAtEpochMs: number | null
  readonly revokedAtEpochMs: number | null
}

/** `POST /api/share-links/open`. */
export const openLinkSchema = z.strictObject({ token })
