import type { Account } from '#domain/access/account.ts'
import type { Store } from '../store/store.ts'
import type { AttemptLimits } from './attempt-limits.ts'
import type { Caller } from './create-access.ts'
import { passwordMatches } from './password-hash.ts'

/** Right; wrong; or not judged for so long. */
export type PasswordJudgement = 'right' | 'wrong' | { readonly waitMs: number }

/**
 * Whether somebody who is signed in types the own password, as is asked before what decides who can sign in is
 * changed: a tablet left lying is not enough. Failures count like those of signing in.
 */
export async function judgeOwnPassword(
  store: Pick<Store, 'findSignIn'>,
  limits: AttemptLimits,
  { account }: Caller,
  password: string,
  address: string,
): Promise<PasswordJudgement> {
  const waitMs = limits.begin(account.signInName, address)
  if (waitMs > 0) return { waitMs }
  const found = await store.findSignIn(account.signInName)
  if (!(await passwordMatches(password, found?.passwordHash ?? null))) return 'wrong'
  limits.succeeded(account.signInName, address)
  return 'right'
}

/** By whom records are signed and how one signs in: what a password is held against. */
export const personOf = ({ name, signInName }: Account) => ({ name, signInName })
