import type { Account } from '#domain/access/account.ts'
import { judgePassword } from '#domain/access/person-rules.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { Store } from '../store/store.ts'
import type { AttemptLimits } from './attempt-limits.ts'
import type { Caller } from './create-access.ts'
import { governs, madeByWhoMay } from './governed-people.ts'
import { judgeOwnPassword, type PasswordJudgement, personOf } from './own-password.ts'
import { hashPassword } from './password-hash.ts'
import { makeSecretToken, sha256OfToken } from './secret-token.ts'

/** Other passwords: one's own, and by a link for whoever forgot it. */
export interface Passwords {
  /** Whether whoever is signed in types the own password. */
  judgeOwn(caller: Caller, password: string, address: string): Promise<PasswordJudgement>
  /** Replaces the caller's password and ends all sessions but the caller's; `judgeOwn` was `right` before. */
  changeOwn(caller: Caller, password: string): Promise<Outcome<null>>
  /** Makes a link's token for an account: the only time that it is known. */
  /** For an account, made by somebody else. */
  makeLink(account: string, by: Actor): Promise<{ token: string; expiresAtEpochMs: number }>
  /** For whom a link sets a password; null: it was used, has expired, or never was. */
  lookAtLink(token: string): Promise<Account | null>
  /** Sets the password of the link's account, ends its sessions and spends its links. */
  useLink(token: string, password: string): Promise<Outcome<{ readonly signInName: string }>>
}

const linkLastsMs = 24 * 3_600_000

export function createPasswords({
  store,
  now,
  limits,
}: {
  readonly store: Store
  readonly now: () => number
  readonly limits: AttemptLimits
}): Passwords {
  const accountOf = async (token: string): Promise<Account | null> => {
    const found = await store.findPasswordLink(sha256OfToken(token))
    if (!found || found.account.disabledAtEpochMs !== null) return null
    const { usedAtEpochMs, expiresAtEpochMs, maker } = found.link
    if (usedAtEpochMs !== null || now() >= expiresAtEpochMs) return null
    // Not as it stood when it was made: the account may have roles since that are none of its maker's business.
    return (await madeByWhoMay(store, maker, (one) => governs(one, found.account))) ? found.account : null
  }
  return {
    judgeOwn: (caller, password, address) => judgeOwnPassword(store, limits, caller, password, address),

    async changeOwn({ account, session }, password) {
      const issues = judgePassword(password, personOf(account))
      if (issues.length > 0) return reject(...issues)
      await store.setPassword(account.id, await hashPassword(password), now(), session.id)
      return accept(null)
    },

    async makeLink(account, by) {
      const { token, sha256 } = makeSecretToken()
      const expiresAtEpochMs = now() + linkLastsMs
      await store.addPasswordLink({ sha256, account, expiresAtEpochMs }, by)
      return { token, expiresAtEpochMs }
    },

    lookAtLink: accountOf,

    async useLink(token, password) {
      const account = await accountOf(token)
      if (!account) return reject(spentLink)
      const issues = judgePassword(password, personOf(account))
      if (issues.length > 0) return reject(...issues)
      const used = await store.usePasswordLink(sha256OfToken(token), await hashPassword(password), now())
      return used === 'accepted' ? accept({ signInName: account.signInName }) : reject(spentLink)
    },
  }
}

const spentLink: Issue = {
  code: 'password-link-spent',
  message: 'This link was used already or has expired. Ask an administrator for another one.',
}
