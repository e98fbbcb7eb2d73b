import type { DuckDBConnection } from '@duckdb/node-api'
import type { FieldEffect, StoredFieldEntry } from '#contract/field-entry.ts'
import type { Layout } from '#contract/layout.ts'
import type { Conflict, Quarantined, Receipt } from '#contract/receipt.ts'
import type { Account, Invitation, Session } from '#domain/access/account.ts'
import type { Role } from '#domain/access/permissions.ts'
import type { AlertEvent } from '#domain/alerts/alert-event.ts'
import type { PushSubscription } from '#domain/alerts/push-subscription.ts'
import type { Webhook } from '#domain/alerts/webhook.ts'
import type { Actor, AuditDraft, AuditEntry, ChainHead } from '#domain/audit/audit-entry.ts'
import type { AuditVerification } from '#domain/audit/verification.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import type { ClockSetting } from '#domain/reduction/logger-clock.ts'
import type { IssuedReport } from '#domain/report/report.ts'
import type { SiteFacts, SiteModel } from '#domain/site/site.ts'
import type { TableName } from '#domain/site/tables.ts'
import type { AccessKeyVerbs } from './access-key-verbs.ts'
import type { FrozenSetVerbs, ReceiptBound } from './frozen-set-verbs.ts'
import type { ProposalVerbs } from './proposal-verbs.ts'

/** Rows for some of a site's tables. */
export type TableRows = Partial<Pick<SiteModel, TableName>>

/** Who changed something, why, and when the server took it. */
export interface Signature {
  readonly author: string
  /** Account of the author; absent or null where nobody was signed in. */
  readonly account?: string | null
  readonly reason: string
  readonly atEpochMs: number
}

/** One version of a record, kept for ever. */
export interface RecordVersion {
  readonly version: number
  readonly recordedAtEpochMs: number
  readonly author: string
  readonly reason: string
  /** Null: withdrawn by this version. */
  readonly body: unknown
}

/** A logger channel and its number in the store; numbers are never reused. */
export interface ChannelKey {
  readonly channel: number
  readonly logger: string
  readonly name: string
}

/** A block of raw readings, parallel arrays of which the first `count` are filled. */
export interface ReadingBlock {
  readonly count: number
  /** Channel numbers. */
  readonly channel: Int32Array
  /** UTC microseconds since 1970. */
  readonly atMicros: BigInt64Array
  readonly raw: Float64Array
  /** UTC microseconds at which the gateway, or failing that the server, received it. */
  readonly receivedMicros: BigInt64Array
}

/** What is known of a batch before its readings. */
export interface BatchHead {
  readonly site: string
  readonly fileName: string
  readonly sha256: string
  readonly bytes: number
  readonly receivedAtEpochMs: number
  readonly from: string
  readonly layout: string | null
  readonly layoutVersion: number | null
}

/** A batch being written. Nothing of it is visible before `commit` returns; a crash leaves no trace of it. */
export interface BatchWriter {
  append(block: ReadingBlock): Promise<void>
  quarantine(entries: readonly Omit<Quarantined, 'batch'>[]): Promise<void>
  /**
   * One transaction: repeats are counted, differing values become conflicts, the rest becomes readings. A value
   * that already waits as a conflict is a repeat. The receipt's instants are those of all readings offered; its
   * `quarantined` adds up the readings its entries stand for, and any entry makes it `taken-in-part`.
   */
  commit(facts: { absent: number; message?: string }): Promise<Receipt>
  abandon(): Promise<void>
}

/** The clock of one logger and the store's numbers of its channels. */
export interface ChannelClock {
  readonly channels: readonly number[]
  readonly settings: readonly ClockSetting[]
}

export interface ReadingWindow {
  readonly site: string
  /** Inclusive; undefined: from the beginning. */
  readonly fromEpochMs?: number
  /** Exclusive; undefined: to the end. */
  readonly untilEpochMs?: number
  /**
   * Clocks of loggers by which instants are put right: the window is one of instants then, and `stamp` is what was sent. Left
   * out: readings stand at the stamps that they came with.
   */
  readonly clocks?: readonly ChannelClock[]
  /** Only what had been received by an instant, to the microsecond, in a batch up to a number. */
  readonly bound?: ReceiptBound
}

/**
 * What became of a field entry that was offered: the first with its id; the very same again; or another one under an
 * id that is taken, kept beside it.
 */
export type FieldAddition = 'accepted' | 'repeated' | 'differs'

/** An attachment whose bytes are kept, as its site knows it. */
export interface HeldAttachment {
  readonly sha256: string
  readonly bytes: number
  readonly mediaType: string
  readonly receivedAtEpochMs: number
}

/** An event of an alert that is to be recorded; one without a number opens the next alert of the site. */
export interface NewAlertEvent extends Omit<AlertEvent, 'alert'> {
  readonly alert: number | null
  /** Account of who did it; absent or null where nobody was signed in. */
  readonly account?: string | null
}

/** An event as it was recorded: `number` counts the events of a site. */
export interface StoredAlertEvent extends AlertEvent {
  readonly number: number
}

/** Readings accepted since a revision, by channel: instants of the first and, exclusive, the last. */
export interface ArrivedReadings {
  /** Up to which revision this tells; the question after this one begins there. */
  readonly revision: number
  readonly channels: readonly {
    readonly channel: number
    readonly fromEpochMs: number
    readonly untilEpochMs: number
  }[]
  /** Whether records changed since as well. */
  readonly recordsChanged: boolean
}

/** What became of an invitation that someone wanted to make an account by. */
export type Redemption = 'accepted' | 'spent' | 'name-taken'

/** An account and its password as argon2id in PHC string form. */
export interface NewAccount extends Pick<Account, 'id' | 'name' | 'signInName'> {
  readonly passwordHash: string
}

/** A secret of a webhook as it is kept: sealed, with its end where another one replaced it. */
export interface SealedWebhookSecret {
  readonly sealed: string
  readonly madeAtEpochMs: number
  /** Null: until it is replaced. */
  readonly endsAtEpochMs: number | null
}

/** Which entries of the audit record are asked for; what is left out narrows nothing. */
export interface AuditQuestion {
  /** Null: those of the server, of no site. */
  readonly site: string | null
  readonly subjectKind?: string | undefined
  /** Empty: every one. */
  readonly subjectKeys?: readonly string[]
  /** Name of whoever did it. */
  readonly name?: string | undefined
  /** Only entries with a lower number. */
  readonly before?: number | undefined
  readonly limit: number
}

/**
 * Records and raw readings. Raw readings are only ever appended; records are versions, never edits.
 * The site leads every key. `tests/contract/store.ts` is what an implementation must pass.
 */
export interface Store extends AccessKeyVerbs, FrozenSetVerbs, ProposalVerbs {
  /** Saves new versions of the records that differ from the latest ones; unchanged records keep theirs. */
  putSite(model: SiteModel, signature: Signature): Promise<{ changed: number }>
  /**
   * Adds rows to the tables of a site, in one transaction, beside whatever they hold by then. A key that a table
   * already has is refused with `VersionConflict` and nothing is added; the site must exist.
   */
  addRows(site: string, rows: TableRows, signature: Signature): Promise<void>
  /**
   * Saves what `change` makes of the site's model, in one transaction and beside no other change; records that are
   * missing in it are withdrawn. `change` is pure; when it throws, nothing is changed. The site must exist.
   */
  changeSite(
    site: string,
    change: (model: SiteModel) => SiteModel,
    signature: Signature,
  ): Promise<{ changed: number }>
  getSite(site: string): Promise<SiteModel | null>
  listSites(): Promise<readonly SiteFacts[]>
  /**
   * Every version of one record, oldest first. `kind` is `facts`, `works`, `layout` or a table's name; `key` is
   * empty for facts, else the key cell of the row, or the JSON array of its key cells where there are several.
   */
  listVersions(site: string, kind: string, key: string): Promise<readonly RecordVersion[]>

  /** Numbers for channels, made at first asking and kept for ever. Order of the answer is that of the request. */
  channelNumbers(site: string, keys: readonly { logger: string; name: string }[]): Promise<readonly number[]>
  /** The same for series ids (`point/measure`), as slices number them. */
  seriesNumbers(site: string, ids: readonly string[]): Promise<readonly number[]>
  listChannels(site: string): Promise<readonly ChannelKey[]>

  /** Saves a declared file layout as its next version; the version given must be one more than the latest. */
  putLayout(site: string, layout: Layout, signature: Signature): Promise<void>
  /** Latest version of every layout of the site. */
  listLayouts(site: string): Promise<readonly Layout[]>

  beginBatch(head: BatchHead): Promise<BatchWriter>
  /** A file that could not be read at all is recorded too. */
  refuseBatch(head: BatchHead, message: string): Promise<Receipt>
  /** The receipt of an earlier batch of the same bytes that was taken whole, if any. */
  findTaken(site: string, sha256: string): Promise<Receipt | null>
  listBatches(site: string): Promise<readonly Receipt[]>
  /** Of one batch, or all that no later batch has superseded. */
  listQuarantined(site: string, batch?: number): Promise<readonly Quarantined[]>
  listConflicts(site: string): Promise<readonly Conflict[]>
  /** Marks a batch's quarantine as dealt with by a later batch of the same file. */
  supersedeBatch(site: string, batch: number, by: number): Promise<void>

  /**
   * Keeps field entries in one transaction, in the order given; the answer is in that order too. Entries are equal
   * when their canonical JSON is. One that differs from what has its id is kept once, however often it comes.
   */
  addFieldEntries(
    site: string,
    entries: readonly FieldEntry[],
    receivedAtEpochMs: number,
    /** Account whose session delivered them; null where there are none. */
    sender: string | null,
  ): Promise<readonly FieldAddition[]>
  /**
   * Entries that arrived, got an effect or an attachment since `after`, by number; `latest` is the `after` of the
   * next question, 0 while there is nothing.
   */
  listFieldEntries(
    site: string,
    after: number,
  ): Promise<{ readonly entries: readonly StoredFieldEntry[]; readonly latest: number }>
  /** Records what entries led to, in one transaction. Earlier effects of an entry stay on record; the last one holds. */
  recordFieldEffects(
    site: string,
    effects: readonly { readonly number: number; readonly effect: FieldEffect }[],
  ): Promise<void>
  /** Records that the bytes of an attachment are kept; what was recorded of them first stays. */
  recordAttachment(site: string, attachment: HeldAttachment): Promise<void>
  /** Those of the attachments that are here, in no order. */
  findAttachments(site: string, sha256s: readonly string[]): Promise<readonly HeldAttachment[]>

  /**
   * Records what happened to alerts, in one transaction and in the order given. Refused with `VersionConflict`, and
   * nothing recorded, where a person acted on the alert after the event of that number.
   */
  appendAlertEvents(
    site: string,
    events: readonly NewAlertEvent[],
    unlessChanged?: { readonly alert: number; readonly number: number },
  ): Promise<readonly StoredAlertEvent[]>
  /** Events after a number, in the order in which they were recorded; 0: all. */
  listAlertEvents(site: string, after: number): Promise<readonly StoredAlertEvent[]>

  /**
   * Keeps a report that is given out, whose files are kept already. Refused with `ReportNumberTaken`, and nothing
   * kept, where its number is not the next of its kind at the site.
   */
  addReport(
    site: string,
    report: Pick<IssuedReport, 'manifest' | 'files'>,
    signature: Signature,
  ): Promise<IssuedReport>
  /** Every report of a site, in the order in which they were given out. */
  listReports(site: string): Promise<readonly IssuedReport[]>

  /** Whether there was ever an account: once there is one, nobody is let in without. */
  hasAccounts(): Promise<boolean>
  /** All accounts with what they may, by name. */
  listAccounts(): Promise<readonly Account[]>
  /** By sign-in name in lower case; null: there is none. */
  findSignIn(signInName: string): Promise<{ account: Account; passwordHash: string } | null>
  /** Its maker is the account of the signature. */
  addInvitation(invitation: Omit<Invitation, 'usedAtEpochMs' | 'maker'>, signature: Signature): Promise<void>
  /** By the SHA-256 of its token, used or not. */
  findInvitation(sha256: string): Promise<Invitation | null>
  /**
   * Makes the account of an invitation and spends it, in one transaction; the account has the invitation's role.
   * The first account spends every invitation that the server made.
   * `spent`: used, expired or never made; `name-taken`: another account signs in or signs records by that name.
   */
  redeemInvitation(sha256: string, account: NewAccount, atEpochMs: number): Promise<Redemption>
  /** The account's role at a site or at every site (`*`); null: none. */
  setMembership(account: string, site: string, role: Role | null, signature: Signature): Promise<void>
  /** Disables an account and ends its sessions, in one transaction, or lets it sign in again (null). */
  disableAccount(account: string, atEpochMs: number | null, signature: Signature): Promise<void>
  addSession(session: Omit<Session, 'lastSeenAtEpochMs' | 'endedAtEpochMs'>): Promise<void>
  /** The session of a token's SHA-256 and its account, whether they hold or not; null: there is none. */
  findSession(sha256: string): Promise<{ session: Session; account: Account } | null>
  sawSession(id: string, atEpochMs: number): Promise<void>
  /** An end once recorded stays. `by`: who ended it; absent: whoever it belongs to. */
  endSession(id: string, atEpochMs: number, by?: Actor): Promise<void>
  /** Those of an account that were not ended, newest first. */
  listSessions(account: string): Promise<readonly Session[]>

  /** Makes a webhook with its first secret; it is made by whoever signs. */
  addWebhook(
    webhook: Pick<Webhook, 'site' | 'id' | 'name' | 'url' | 'kinds'>,
    sealedSecret: string,
    signature: Signature,
  ): Promise<void>
  /** Those of a site that were not removed, by name. */
  listWebhooks(site: string): Promise<readonly Webhook[]>
  /** With its secrets, newest first, ended ones among them; null: there is none, or it was removed. */
  findWebhook(
    site: string,
    id: string,
  ): Promise<{ readonly webhook: Webhook; readonly secrets: readonly SealedWebhookSecret[] } | null>
  /**
   * A new secret; the one before ends at an instant, and those that ended by now are forgotten, in one transaction.
   * False: there is no such webhook.
   */
  replaceWebhookSecret(
    site: string,
    id: string,
    replacement: { readonly sealed: string; readonly earlierEndsAtEpochMs: number },
    signature: Signature,
  ): Promise<boolean>
  /** Disables a webhook for the reason of the signature, or lets it be sent to again. False: there is none. */
  standWebhook(site: string, id: string, disabled: boolean, signature: Signature): Promise<boolean>
  /** Forgets its secrets; the record that there was one stays. False: there is none. */
  removeWebhook(site: string, id: string, signature: Signature): Promise<boolean>

  /**
   * One for each address: whoever had it before, on the same device, has it no longer. `name`: of the account, for the
   * audit record, in which the same account on the same device again leaves nothing.
   */
  putPushSubscription(subscription: PushSubscription, name: string): Promise<void>
  /** Of an account that may sign in, by sessions that were not ended; oldest first. */
  listPushSubscriptions(account: string): Promise<readonly PushSubscription[]>
  /** Of that account alone. False: it has no such device. */
  removePushSubscription(account: string, id: string, signature: Signature): Promise<boolean>
  /**
   * Adds entries to the audit record, in one transaction: for what is kept elsewhere than in this store. The verbs above
   * write theirs in the transaction of the change itself, and so must new ones (`file.audit.append`).
   */
  recordAudit(entries: readonly AuditDraft[]): Promise<void>
  /** Newest first. */
  listAudit(question: AuditQuestion): Promise<readonly AuditEntry[]>
  /** Kinds of subjects, and names, that occur in the entries of a site or of the server (null). */
  listAuditChoices(
    site: string | null,
  ): Promise<{ readonly kinds: readonly string[]; readonly names: readonly string[] }>
  /**
   * Works the whole chain out anew, holds the kept records against it and its end against what was noted outside;
   * `noted` is an end that somebody noted elsewhere.
   */
  verifyAudit(noted?: ChainHead): Promise<AuditVerification>

  /** Counts every commit that changed readings or records of a site; slices and state carry it. 0: nothing yet. */
  revision(site: string): Promise<number>
  /**
   * Instant range of the readings accepted since a revision, end exclusive, so that only touched months are
   * published again. Null when there are none: what changed since then, if anything, were records.
   */
  touchedSince(site: string, revision: number): Promise<{ fromEpochMs: number; untilEpochMs: number } | null>

  /** What arrived after a revision, by channel. */
  arrivedSince(site: string, revision: number): Promise<ArrivedReadings>

  /**
   * Makes raw readings visible on `connection` as relation `name` with columns
   * channel INTEGER, "at" TIMESTAMP (UTC; the name must be quoted), raw DOUBLE, received_at TIMESTAMP, batch INTEGER,
   * stamp TIMESTAMP: as the logger sent it, which is "at" where no clock is put right.
   */
  exposeReadings(connection: DuckDBConnection, name: string, window: ReadingWindow): Promise<void>
  /**
   * A DuckDB connection on which `exposeReadings` works. The caller closes it, and before `close`: an open one
   * keeps the data file locked. Tables and views made on it must be temporary.
   */
  connect(): Promise<DuckDBConnection>

  /** Waits for commits under way, abandons batches still open, and leaves nothing to replay at the next start. */
  close(): Promise<void>
}
