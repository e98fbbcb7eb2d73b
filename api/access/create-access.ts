import { randomUUID } from 'node:crypto'
import type { Account, Session } from '#domain/access/account.ts'
import type { Membership } from '#domain/access/membership.ts'
import { judgeNames, judgePassword } from '#domain/access/person-rules.ts'
import { sessionHolds } from '#domain/access/session-standing.ts'
import { type Actor, thisServer } from '#domain/audit/audit-entry.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { Store } from '../store/store.ts'
import { createAttemptLimits } from './attempt-limits.ts'
import { administers, madeByWhoMay } from './governed-people.ts'
import { createIngestTokens, type IngestTokens } from './ingest-tokens.ts'
import { openSession } from './open-session.ts'
import { createPasskeys, type Passkeys } from './passkeys.ts'
import { hashPassword, passwordMatches } from './password-hash.ts'
import { createPasswords, type Passwords } from './passwords.ts'
import { createSecondFactors, type SecondFactors } from './second-factors.ts'
import { makeSecretToken, sha256OfToken } from './secret-token.ts'
import { createShareLinks, type ShareLinks } from './share-links.ts'

/** Who asks: a session that holds, of an account that may sign in. */
export interface Caller {
  readonly account: Account
  readonly session: Session
}

export interface SignInRequest {
  readonly signInName: string
  readonly password: string
  /** One-time or recovery code of an account that asks for one. */
  readonly code?: string | undefined
  readonly device: string
  /** From which the request came, for the limits. */
  readonly address: string
}

/**
 * Signed in, with the token for the device; wrong, without saying what; the password is right and a code is missing or
 * wrong; or not judged for so long.
 */
export type SignInAnswer =
  | { readonly token: string; readonly account: Account }
  | { readonly wrong: true }
  | { readonly code: 'needed' | 'wrong'; readonly account: Account }
  | { readonly waitMs: number }

/** Accounts and sessions as the HTTP side uses them. */
export interface Access {
  /** Whether there are accounts: from then on nobody is let in without one. */
  hasAccounts(): Promise<boolean>
  signIn(request: SignInRequest): Promise<SignInAnswer>
  /** Null: the token is nobody's, or its session or account ended. */
  findCaller(token: string): Promise<Caller | null>
  signOut(caller: Caller): Promise<void>
  /** The caller's sessions on other devices that hold, newest first. */
  listOtherSessions(caller: Caller): Promise<readonly Session[]>
  endOtherSessions(caller: Caller): Promise<void>
  /** Makes a link's token: the only time that it is known. `by`: who invites; absent: the server itself. */
  invite(
    membership: Membership,
    lastsMs: number,
    by?: Actor,
  ): Promise<{ token: string; expiresAtEpochMs: number }>
  /** What an invitation offers; null: it was used, has expired, or never was. */
  lookAtInvitation(token: string): Promise<Membership | null>
  redeem(token: string, person: NewPerson): Promise<Outcome<{ readonly signInName: string }>>
  readonly passwords: Passwords
  /** Null: the server was given no key to seal their secrets with. */
  readonly secondFactors: SecondFactors | null
  readonly passkeys: Passkeys
  readonly ingestTokens: IngestTokens
  readonly shareLinks: ShareLinks
}

interface NewPerson {
  readonly name: string
  readonly signInName: string
  readonly password: string
}

/** A session is noted as seen so often at most: not every request is to write. */
const noteSeenEveryMs = 10 * 60_000

interface AccessDependencies {
  readonly store: Store
  readonly now: () => number
  /** 32 bytes with which the secrets of second factors are sealed in the store. */
  readonly sealKey?: Uint8Array
  /** Told of attempts to sign in, without what was typed. */
  readonly report?: (line: string) => void
}

export function createAccess({ store, now, sealKey, report = () => {} }: AccessDependencies): Access {
  const limits = createAttemptLimits(now)
  const secondFactors = sealKey ? createSecondFactors({ store, now, sealKey }) : null
  let accounts: boolean | undefined

  const invitationOf = async (token: string) => {
    const invitation = await store.findInvitation(sha256OfToken(token))
    if (!invitation || invitation.usedAtEpochMs !== null || invitation.expiresAtEpochMs <= now()) return null
    return (await madeByWhoMay(store, invitation.maker, (maker) => administers(maker, invitation.site)))
      ? invitation
      : null
  }

  const othersOf = async ({ account, session }: Caller): Promise<readonly Session[]> =>
    (await store.listSessions(account.id)).filter((one) => one.id !== session.id && sessionHolds(one, now()))

  const judgeCode = async (account: Account, code: string | undefined) => {
    if (secondFactors) return secondFactors.judge(account, code)
    if (!(await store.findSecondFactor(account.id))?.confirmedAtEpochMs) return 'not-asked'
    throw new Error(
      'This account has a second factor, and the server was started without the key to read it.',
    )
  }

  return {
    async hasAccounts() {
      // Accounts are never removed, and made nowhere but below.
      accounts ??= await store.hasAccounts()
      return accounts
    },

    async signIn({ signInName: typed, password, code, device, address }) {
      const signInName = typed.normalize('NFKC').trim().toLowerCase()
      const waitMs = limits.begin(signInName, address)
      const found = waitMs > 0 ? null : await store.findSignIn(signInName)
      // A password typed in the wrong field must not stand in the report: only names that somebody has do.
      const tell = (what: string) =>
        report(`Sign-in by ${found?.account.signInName ?? '?'}, ${address}: ${what}`)
      if (waitMs > 0) {
        tell('not judged, too many attempts')
        return { waitMs }
      }
      const matches = await passwordMatches(password, found?.passwordHash ?? null)
      if (!found || !matches || found.account.disabledAtEpochMs !== null) {
        tell('refused')
        return { wrong: true }
      }
      const { account } = found
      const judged = await judgeCode(account, code)
      tell(judged === 'needed' || judged === 'wrong' ? `code ${judged}` : 'let in')
      if (judged === 'needed') limits.undecided(signInName, address)
      if (judged === 'needed' || judged === 'wrong') return { code: judged, account }
      limits.succeeded(signInName, address)
      return { token: await openSession(store, account.id, device, now()), account }
    },

    async findCaller(token) {
      const found = await store.findSession(sha256OfToken(token))
      if (!found || found.account.disabledAtEpochMs !== null || !sessionHolds(found.session, now()))
        return null
      if (now() - found.session.lastSeenAtEpochMs > noteSeenEveryMs)
        await store.sawSession(found.session.id, now())
      return found
    },

    signOut: ({ session }) => store.endSession(session.id, now()),

    listOtherSessions: othersOf,

    async endOtherSessions(caller) {
      for (const { id } of await othersOf(caller)) await store.endSession(id, now())
    },

    async invite({ site, role }, lastsMs, by = { account: null, name: thisServer }) {
      const { token, sha256 } = makeSecretToken()
      const expiresAtEpochMs = now() + lastsMs
      await store.addInvitation(
        { sha256, site, role, expiresAtEpochMs },
        { author: by.name, account: by.account, reason: '', atEpochMs: now() },
      )
      return { token, expiresAtEpochMs }
    },

    async lookAtInvitation(token) {
      const invitation = await invitationOf(token)
      return invitation && { site: invitation.site, role: invitation.role }
    },

    async redeem(token, person) {
      if (!(await invitationOf(token))) return reject(spentInvitation)
      const names = judgeNames(person)
      const issues = [
        ...(names.ok ? [] : names.issues),
        ...judgePassword(person.password, names.ok ? names.value : person),
      ]
      if (!names.ok || issues.length > 0) return reject(...issues)
      const { name, signInName } = names.value
      const passwordHash = await hashPassword(person.password)
      const redemption = await store.redeemInvitation(
        sha256OfToken(token),
        { id: randomUUID(), name, signInName, passwordHash },
        now(),
      )
      if (redemption === 'accepted') accounts = true
      if (redemption === 'spent') return reject(spentInvitation)
      if (redemption === 'name-taken')
        return reject({
          code: 'name-taken',
          column: 'signInName',
          value: signInName,
          message: 'Somebody else signs in, or signs records, by this name. Choose another one.',
        })
      return accept({ signInName })
    },

    passwords: createPasswords({ store, now, limits }),
    secondFactors,
    passkeys: createPasskeys({ store, now }),
    ingestTokens: createIngestTokens({ store, now }),
    shareLinks: createShareLinks({ store, now }),
  }
}

const spentInvitation: Issue = {
  code: 'invitation-spent',
  message: 'This link was used already or has expired. Ask an administrator for another one.',
}
