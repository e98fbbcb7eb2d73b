import {
  type FieldDocument,
  type FieldResult,
  type FieldResults,
  fieldResultsSchema,
} from '#contract/field-entry.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { askServer, sendServer } from '../state/ask-server.ts'
import type { KeptAttachment } from './field-database.ts'

/** What the outbox asks of the server; each rejects where no answer came. */
export interface FieldServer {
  send(site: string, entries: readonly FieldEntry[], signal?: AbortSignal): Promise<FieldResults>
  hasAttachment(site: string, sha256: string, signal?: AbortSignal): Promise<boolean>
  /** Null: taken. Otherwise why it will not be taken, however often it is sent. */
  sendAttachment(attachment: KeptAttachment, signal?: AbortSignal): Promise<string | null>
  receive(site: string, after: number, signal?: AbortSignal): Promise<FieldDocument>
}

const path = (site: string, part: string) => `/api/sites/${encodeURIComponent(site)}/${part}`

/** A radio that hangs must not hold up the next attempt for ever. */
const within = (ms: number, signal?: AbortSignal) =>
  signal ? AbortSignal.any([signal, AbortSignal.timeout(ms)]) : AbortSignal.timeout(ms)

export const fieldServer: FieldServer = {
  async send(site, entries, signal) {
    const answer = await sendServer(path(site, 'field-entries'), { entries }, within(60_000, signal))
    return fieldResultsSchema.parse(answer)
  },

  async hasAttachment(site, sha256, signal) {
    const answer = await fetch(path(site, `attachments/${sha256}`), {
      method: 'HEAD',
      signal: within(30_000, signal),
    })
    return answer.ok
  },

  async sendAttachment({ site, sha256, mediaType, bytes }, signal) {
    const answer = await fetch(path(site, `attachments/${sha256}`), {
      method: 'PUT',
      body: bytes,
      headers: { 'content-type': mediaType },
      signal: within(300_000, signal),
    })
    if (answer.ok) return null
    const problem = (await answer.json().catch(() => null)) as { detail?: string } | null
    const sentence = problem?.detail ?? `The server answered ${answer.status} ${answer.statusText}.`
    // Another time, or another person, it will be taken: it waits.
    if (answer.status >= 500 || [401, 403, 404, 429].includes(answer.status)) throw new Error(sentence)
    return sentence
  },

  receive: (site, after, signal) =>
    askServer<FieldDocument>(`${path(site, 'field-entries')}?after=${after}`, within(60_000, signal)),
}

/** What a person reads of an entry that the server did not simply take; null: nothing to say. */
export function problemOf({ outcome, issues }: Pick<FieldResult, 'outcome' | 'issues'>): string | null {
  if (outcome === 'differs')
    return 'Another entry came with the same id; both are kept, side by side. Look at both and say which holds.'
  if (outcome === 'unreadable')
    return `The server could not read it; it stays on this device. ${(issues ?? []).map(({ message }) => message).join(' ')}`.trim()
  return null
}
