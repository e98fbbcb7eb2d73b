import { Secret, TOTP } from 'otpauth'

/** What authenticator apps take for granted: HMAC-SHA-1, six digits, 30 s steps (RFC 6238, RFC 4226). */
const form = { algorithm: 'SHA1', digits: 6, period: 30 } as const
/** Clocks differ: the code of the step before and the one after count too (RFC 6238, 5.2 and 6). */
const stepsAround = 1

/** 160 random bits, as long as the hash (RFC 4226, 4, R6). */
export const makeCodeSecret = (): Uint8Array => new Secret({ size: 20 }).bytes

/** The secret as a person types it, and as an address that apps read from a picture. */
export function describeCodeSecret(secret: Uint8Array, signInName: string): { key: string; uri: string } {
  const shared = secretOf(secret)
  const codes = new TOTP({ ...form, issuer: 'Stillground', label: signInName, secret: shared })
  return { key: shared.base32, uri: codes.toString() }
}

/** Step (30 s since 1970) of which a code is, at an instant or one step beside it; null: of none. */
export function stepOfCode(secret: Uint8Array, code: string, atEpochMs: number): number | null {
  if (!/^\d{6}$/.test(code)) return null
  const beside = TOTP.validate({
    ...form,
    secret: secretOf(secret),
    token: code,
    timestamp: atEpochMs,
    window: stepsAround,
  })
  return beside === null ? null : Math.floor(atEpochMs / (form.period * 1000)) + beside
}

const secretOf = (bytes: Uint8Array) => new Secret({ buffer: Uint8Array.from(bytes).buffer })
