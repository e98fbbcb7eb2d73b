import { hash, verify } from '@node-rs/argon2'
import { asOnePassword } from '#domain/access/person-rules.ts'

/** So many are hashed or wait for it at a time; each takes 19 MiB and some 30 ms while it runs. */
const most = 24

let under = 0

/** Too many passwords are being judged at this moment; the same request may be made again. */
export class TooManyAtOnce extends Error {}

/** argon2id with the package's own settings: 19 MiB, two passes, one lane. */
export const hashPassword = (password: string): Promise<string> => inTurn(() => hash(asOnePassword(password)))

/** Whether a password is the one of a hash. The work is the same where there is no hash, and the answer no. */
export async function passwordMatches(password: string, passwordHash: string | null): Promise<boolean> {
  const matches = await inTurn(async () =>
    verify(passwordHash ?? (await nobodysHash()), asOnePassword(password)),
  )
  return matches && passwordHash !== null
}

let nobodys: Promise<string> | undefined
/** Of a password that nobody has. */
const nobodysHash = (): Promise<string> => (nobodys ??= hash(crypto.randomUUID()))

/** Made before anyone asks, so that the first unknown name takes no longer than the second. */
export const prepareHashing = (): Promise<unknown> => nobodysHash()

async function inTurn<T>(task: () => Promise<T>): Promise<T> {
  if (under >= most) throw new TooManyAtOnce()
  under++
  try {
    return await task()
  } finally {
    under--
  }
}
