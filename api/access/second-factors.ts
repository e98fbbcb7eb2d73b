import type { Account } from '#domain/access/account.ts'
import type { Store } from '../store/store.ts'
import { describeCodeSecret, makeCodeSecret, stepOfCode } from './one-time-codes.ts'
import { makeRecoveryCodes, sha256OfRecoveryCode } from './recovery-codes.ts'
import { openSealed, sealSecret } from './sealed-secret.ts'

/** Codes that are asked for beside the password, for who wants that. */
export interface SecondFactors {
  standing(account: string): Promise<{ confirmedAtEpochMs: number; recoveryCodesLeft: number } | null>
  /** A secret for the app of a person, shown this once; null: there is a confirmed one already. */
  begin(account: Account): Promise<{ key: string; uri: string } | null>
  /** Asked for from now on; the recovery codes are told this once. Null: no code of the secret that was begun. */
  confirm(account: Account, code: string): Promise<readonly string[] | null>
  /** What a code is worth for an account at sign-in, which uses it up. `not-asked`: the account has no second factor. */
  judge(account: Account, code: string | undefined): Promise<'not-asked' | 'needed' | 'wrong' | 'right'>
  /** Takes it away, whether its person or an administrator asks. */
  remove(account: string): Promise<void>
}

export function createSecondFactors({
  store,
  now,
  sealKey,
}: {
  readonly store: Store
  readonly now: () => number
  readonly sealKey: Uint8Array
}): SecondFactors {
  return {
    async standing(account) {
      const confirmedAtEpochMs = (await store.findSecondFactor(account))?.confirmedAtEpochMs
      return typeof confirmedAtEpochMs === 'number'
        ? { confirmedAtEpochMs, recoveryCodesLeft: await store.countRecoveryCodes(account) }
        : null
    },

    async begin({ id, signInName }) {
      const secret = makeCodeSecret()
      const begun = await store.beginSecondFactor(id, sealSecret(sealKey, secret, id), now())
      return begun === 'accepted' ? describeCodeSecret(secret, signInName) : null
    },

    async confirm({ id }, code) {
      const factor = await store.findSecondFactor(id)
      if (!factor || factor.confirmedAtEpochMs !== null) return null
      const step = stepOfCode(openSealed(sealKey, factor.sealed, id), bareCode(code), now())
      if (step === null) return null
      const codes = makeRecoveryCodes()
      const hashes = codes.flatMap((one) => sha256OfRecoveryCode(one) ?? [])
      return (await store.confirmSecondFactor(id, step, hashes, now())) === 'accepted' ? codes : null
    },

    async judge({ id }, code) {
      const factor = await store.findSecondFactor(id)
      if (!factor || factor.confirmedAtEpochMs === null) return 'not-asked'
      if (code === undefined || code.trim() === '') return 'needed'
      const recovery = sha256OfRecoveryCode(code)
      if (recovery !== null)
        return (await store.useRecoveryCode(id, recovery, now())) === 'accepted' ? 'right' : 'wrong'
      const step = stepOfCode(openSealed(sealKey, factor.sealed, id), bareCode(code), now())
      if (step === null) return 'wrong'
      return (await store.useStep(id, step)) === 'accepted' ? 'right' : 'wrong'
    },

    remove: (account) => store.removeSecondFactor(account),
  }
}

/** Apps show a code in two groups. */
const bareCode = (typed: string): string => typed.replaceAll(/\s/g, '')
