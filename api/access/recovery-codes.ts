import { randomInt } from 'node:crypto'
import { sha256OfToken } from './secret-token.ts'

export const recoveryCodes = 10
/** No letter that is taken for another letter or a digit when it is copied from paper. */
const letters = 'abcdefghjkmnpqrstuvwxyz23456789'
const groups = 6
const groupLength = 4

/** So many single-use codes, each of about 118 random bits: too many to guess, so that a plain hash of them may be kept. */
export const makeRecoveryCodes = (): readonly string[] =>
  Array.from({ length: recoveryCodes }, () =>
    Array.from({ length: groups }, () =>
      Array.from({ length: groupLength }, () => letters[randomInt(letters.length)]).join(''),
    ).join('-'),
  )

/** SHA-256 of a recovery code however it is spaced or capitalised; null: it is no recovery code. */
export function sha256OfRecoveryCode(typed: string): string | null {
  const bare = typed.toLowerCase().replaceAll(/[^a-z0-9]/g, '')
  return bare.length === groups * groupLength ? sha256OfToken(bare) : null
}
