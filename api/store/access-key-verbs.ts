import type {
  IngestToken,
  Passkey,
  PasswordLink,
  SecondFactor,
  ShareLink,
} from '#domain/access/access-keys.ts'
import type { Account } from '#domain/access/account.ts'
import type { Actor } from '#domain/audit/audit-entry.ts'

/** What became of something that counts once: it counted now, or had been used, withdrawn or never there. */
export type Use = 'accepted' | 'spent'

/** Passwords, second factors, passkeys, tokens and links: part of the store. */
export interface AccessKeyVerbs {
  /**
   * Gives an account another password (argon2id, PHC string), ends its sessions but the one named and spends its
   * password links, in one transaction.
   */
  setPassword(
    account: string,
    passwordHash: string,
    atEpochMs: number,
    keepSession: string | null,
  ): Promise<void>
  /** `by`: who made it for somebody else. */
  addPasswordLink(link: Omit<PasswordLink, 'usedAtEpochMs' | 'maker'>, by?: Actor): Promise<void>
  /** By the SHA-256 of its token, used or not, with its account; null: there is none. */
  findPasswordLink(sha256: string): Promise<{ link: PasswordLink; account: Account } | null>
  /** Spends the link and does what `setPassword` does without a session to keep, in one transaction. */
  usePasswordLink(sha256: string, passwordHash: string, atEpochMs: number): Promise<Use>

  /** Null: none, neither confirmed nor begun. */
  findSecondFactor(account: string): Promise<SecondFactor | null>
  /** Begins one that is not asked for yet, in place of one begun earlier. `spent`: there is a confirmed one. */
  beginSecondFactor(account: string, sealed: string, atEpochMs: number): Promise<Use>
  /** Confirms the one that was begun by the code of a step and gives it recovery codes, in one transaction. */
  confirmSecondFactor(
    account: string,
    step: number,
    recoverySha256s: readonly string[],
    atEpochMs: number,
  ): Promise<Use>
  /** Counts a code of a confirmed one; `spent`: one of this step or a later one was accepted before. */
  useStep(account: string, step: number): Promise<Use>
  /** Counts a recovery code once. */
  useRecoveryCode(account: string, sha256: string, atEpochMs: number): Promise<Use>
  countRecoveryCodes(account: string): Promise<number>
  /**
   * Takes the second factor and its recovery codes away, whoever asks for it: the one place where that happens. `by`, here
   * and below: who did it, where that is not the account itself.
   */
  removeSecondFactor(account: string, by?: Actor): Promise<void>

  /** False: a credential of this id is kept already, of this account or another. */
  addPasskey(passkey: Omit<Passkey, 'lastUsedAtEpochMs'>): Promise<boolean>
  /** With its account, whether that may sign in or not; null: there is none. */
  findPasskey(id: string): Promise<{ passkey: Passkey; account: Account } | null>
  /** Oldest first. */
  listPasskeys(account: string): Promise<readonly Passkey[]>
  usedPasskey(id: string, counter: number, atEpochMs: number): Promise<void>
  /** False: the account has none of this id. */
  namePasskey(account: string, id: string, name: string): Promise<boolean>
  removePasskey(account: string, id: string): Promise<boolean>

  addIngestToken(token: Omit<IngestToken, 'lastUsedAtEpochMs' | 'revokedAtEpochMs'>): Promise<void>
  /** By its SHA-256, revoked or not. */
  findIngestToken(sha256: string): Promise<IngestToken | null>
  /** Of a site, newest first, revoked ones too. */
  listIngestTokens(site: string): Promise<readonly IngestToken[]>
  usedIngestToken(id: string, atEpochMs: number): Promise<void>
  /** An end once recorded stays. False: the site has none of this id. */
  revokeIngestToken(site: string, id: string, atEpochMs: number, by?: Actor): Promise<boolean>

  addShareLink(link: Omit<ShareLink, 'lastUsedAtEpochMs' | 'revokedAtEpochMs'>): Promise<void>
  /** By the SHA-256 of its token, whether it holds or not, with the account that made it. */
  findShareLink(sha256: string): Promise<{ link: ShareLink; maker: Account } | null>
  /** Of a site, newest first, ended ones too. */
  listShareLinks(site: string): Promise<readonly ShareLink[]>
  usedShareLink(id: string, atEpochMs: number): Promise<void>
  /** An end once recorded stays. False: the site has none of this id. */
  revokeShareLink(site: string, id: string, atEpochMs: number, by?: Actor): Promise<boolean>
}
