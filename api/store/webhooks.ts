import type { AlertKind } from '#domain/alerts/alert-kinds.ts'
import type { Webhook } from '#domain/alerts/webhook.ts'
import type { AuditAction, AuditDraft } from '#domain/audit/audit-entry.ts'
import type { DuckdbFile } from './duckdb-file.ts'
import { canonicalJson } from './model-records.ts'
import type { Numbering } from './numbering.ts'
import { queryRows } from './query-rows.ts'
import type { SealedWebhookSecret, Signature, Store } from './store.ts'

type WebhookVerbs = Pick<
  Store,
  'addWebhook' | 'listWebhooks' | 'findWebhook' | 'replaceWebhookSecret' | 'standWebhook' | 'removeWebhook'
>

/** Programs elsewhere that are told of a site's alerts. */
export function createWebhooks(file: DuckdbFile, numbering: Numbering): WebhookVerbs {
  return {
    async addWebhook({ site: slug, id, name, url, kinds }, sealed, signature) {
      const site = await numbering.siteNumber(slug)
      const at = Math.round(signature.atEpochMs)
      await file.transact(async (connection) => {
        await connection.run(
          `INSERT INTO webhook VALUES ($site, $id, $name, $url, $kinds, $madeBy, epoch_ms($at::BIGINT), NULL, NULL, NULL)`,
          { site, id, name, url, kinds: JSON.stringify(kinds), madeBy: signature.author, at },
        )
        await connection.run(
          'INSERT INTO webhook_secret VALUES ($site, $id, $sealed, epoch_ms($at::BIGINT), NULL)',
          { site, id, sealed, at },
        )
        // Its host alone: the rest of an address may be a key.
        const after = canonicalJson({ name, host: new URL(url).host, kinds })
        await file.audit.append(connection, [{ ...entry(slug, id, 'made', signature), after }])
      })
    },

    async listWebhooks(slug) {
      const site = await numbering.findSite(slug)
      if (site === null) return []
      const rows = await queryRows<WebhookRow>(
        file.reader,
        `SELECT ${columns} FROM webhook WHERE site = $site AND removed_at IS NULL ORDER BY name, id`,
        { site },
      )
      return rows.map((row) => webhookOf(slug, row))
    },

    async findWebhook(slug, id) {
      const site = await numbering.findSite(slug)
      if (site === null) return null
      const [row] = await queryRows<WebhookRow>(
        file.reader,
        `SELECT ${columns} FROM webhook WHERE site = $site AND id = $id AND removed_at IS NULL`,
        { site, id },
      )
      if (!row) return null
      const secrets = await queryRows<SealedWebhookSecret>(
        file.reader,
        `SELECT sealed, epoch_ms(made_at) AS "madeAtEpochMs", epoch_ms(ends_at) AS "endsAtEpochMs"
         FROM webhook_secret WHERE site = $site AND webhook = $id ORDER BY made_at DESC, rowid DESC`,
        { site, id },
      )
      return { webhook: webhookOf(slug, row), secrets }
    },

    async replaceWebhookSecret(slug, id, { sealed, earlierEndsAtEpochMs }, signature) {
      const site = await numbering.siteNumber(slug)
      const at = Math.round(signature.atEpochMs)
      return file.transact(async (connection) => {
        // One that was removed meanwhile gets none.
        const added = await connection.run(
          `INSERT INTO webhook_secret SELECT site, id, $sealed, epoch_ms($at::BIGINT), NULL
           FROM webhook WHERE site = $site AND id = $id AND removed_at IS NULL`,
          { site, id, sealed, at },
        )
        if (added.rowsChanged === 0) return false
        await connection.run(
          'DELETE FROM webhook_secret WHERE site = $site AND webhook = $id AND ends_at <= epoch_ms($at::BIGINT)',
          { site, id, at },
        )
        await connection.run(
          `UPDATE webhook_secret SET ends_at = epoch_ms($ends::BIGINT)
           WHERE site = $site AND webhook = $id AND ends_at IS NULL AND sealed != $sealed`,
          { site, id, sealed, ends: Math.round(earlierEndsAtEpochMs) },
        )
        const after = canonicalJson({ earlierSecretEndsAtEpochMs: Math.round(earlierEndsAtEpochMs) })
        await file.audit.append(connection, [{ ...entry(slug, id, 'replaced', signature), after }])
        return true
      })
    },

    async standWebhook(slug, id, disabled, signature) {
      const site = await numbering.siteNumber(slug)
      const at = disabled ? Math.round(signature.atEpochMs) : null
      return file.transact(async (connection) => {
        const stood = await connection.run(
          `UPDATE webhook SET disabled_at = epoch_ms($at::BIGINT), disabled_why = $why
           WHERE site = $site AND id = $id AND removed_at IS NULL`,
          { site, id, at, why: disabled ? signature.reason : null },
        )
        if (stood.rowsChanged === 0) return false
        await file.audit.append(connection, [entry(slug, id, disabled ? 'disabled' : 'enabled', signature)])
        return true
      })
    },

    async removeWebhook(slug, id, signature) {
      const site = await numbering.siteNumber(slug)
      return file.transact(async (connection) => {
        const removed = await connection.run(
          `UPDATE webhook SET removed_at = epoch_ms($at::BIGINT)
           WHERE site = $site AND id = $id AND removed_at IS NULL`,
          { site, id, at: Math.round(signature.atEpochMs) },
        )
        if (removed.rowsChanged === 0) return false
        await connection.run('DELETE FROM webhook_secret WHERE site = $site AND webhook = $id', { site, id })
        await file.audit.append(connection, [entry(slug, id, 'withdrawn', signature)])
        return true
      })
    },
  }
}

const entry = (
  site: string,
  subjectKey: string,
  action: AuditAction,
  { author, account = null, reason, atEpochMs }: Signature,
): AuditDraft => ({
  site,
  atEpochMs,
  account,
  name: author,
  action,
  subjectKind: 'webhook',
  subjectKey,
  version: null,
  before: null,
  after: null,
  why: reason,
})

/** `kinds` is JSON. */
type WebhookRow = Omit<Webhook, 'site' | 'kinds'> & { readonly kinds: string }

const columns = `id, name, url, kinds, made_by AS "madeBy", epoch_ms(made_at) AS "madeAtEpochMs",
  epoch_ms(disabled_at) AS "disabledAtEpochMs", disabled_why AS "disabledWhy"`

const webhookOf = (site: string, row: WebhookRow): Webhook => ({
  ...row,
  site,
  kinds: JSON.parse(row.kinds) as AlertKind[],
})
