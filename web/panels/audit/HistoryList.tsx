import { createSignal, For, Show } from 'solid-js'
import type { AuditPage } from '#contract/audit.ts'
import type { AuditEntry } from '#domain/audit/audit-entry.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { sync } from '../../ui/sync.ts'
import { EntryItem } from './EntryItem.tsx'
import './audit.css'

/** Records of one kind, by their keys. */
export interface AuditedRecords {
  readonly kind: string
  readonly keys: readonly string[]
}

interface Told {
  readonly entries: readonly AuditEntry[]
  readonly more: boolean
}

/** What the audit record has of some records, newest first; asked again when records arrive anew. */
export function HistoryList(props: { of: string; records: readonly AuditedRecords[]; isWanted: boolean }) {
  const [told, setTold] = createSignal<Told | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ask = latestOnly(async (paths: readonly string[], signal: AbortSignal): Promise<Told> => {
    const pages = await Promise.all(paths.map((path) => askServer<AuditPage>(path, signal)))
    return {
      entries: pages.flatMap(({ entries }) => entries).sort((one, other) => other.number - one.number),
      more: pages.some(({ more }) => more),
    }
  })
  sync(
    () => {
      const site = siteDocument()?.facts.id
      return props.isWanted && site !== undefined
        ? props.records
            .filter(({ keys }) => keys.length > 0)
            .map((one) => sitePath(site, `/audit?${questionOf(one)}`))
        : null
    },
    (paths) => {
      if (paths === null) return
      ask(paths).then(
        (answer) => {
          if (!answer) return
          setTrouble(null)
          setTold(answer)
        },
        (cause) => setTrouble(sentenceOf(cause)),
      )
    },
  )
  return (
    <>
      <Show when={trouble()}>
        {(sentence) => (
          <p class="trouble" role="alert">
            {sentence()}
          </p>
        )}
      </Show>
      <Show
        when={told()}
        fallback={
          <Show when={!trouble()}>
            <p class="waiting">Asking for the history …</p>
          </Show>
        }
      >
        {(known) => (
          <>
            <ol class="audit-entries" aria-label={`History of ${props.of}, newest first`}>
              <For each={known().entries} fallback={<li>{nothing}</li>}>
                {(entry) => <EntryItem entry={entry} linked={false} />}
              </For>
            </ol>
            <Show when={known().more}>
              <p>Older entries stand under Audit record.</p>
            </Show>
          </>
        )}
      </Show>
    </>
  )
}

const nothing = 'Nothing has changed since the audit record began; what stands here is from before.'

function questionOf({ kind, keys }: AuditedRecords): URLSearchParams {
  const question = new URLSearchParams({ subjectKind: kind, limit: '100' })
  for (const key of keys.slice(0, mostKeys)) question.append('subjectKey', key)
  return question
}

/** As many as the server takes at once. */
const mostKeys = 200
