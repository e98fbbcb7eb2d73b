import { createSignal, For, Show } from 'solid-js'
import type { AuditPage } from '#contract/audit.ts'
import type { AuditEntry } from '#domain/audit/audit-entry.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { auditFilter, narrowAudit } from '../../state/audit-filter.ts'
import { isAuditReadable, isWholeAuditReadable } from '../../state/audit-readable.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { sync } from '../../ui/sync.ts'
import { AuditCheck } from './AuditCheck.tsx'
import { EntryItem } from './EntryItem.tsx'
import { subjectName } from './entry-words.ts'
import './audit.css'
import './record-history.css'

/** Everything that changed a record or a state of the site, newest first, by kind and by person. */
export function AuditPanel() {
  const [isOfServer, setOfServer] = createSignal(false)
  const [choices, setChoices] = createSignal<NonNullable<AuditPage['choices']>>({ kinds: [], names: [] })
  const [entries, setEntries] = createSignal<readonly AuditEntry[]>([])
  const [hasMore, setMore] = createSignal(false)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const [isAsking, setAsking] = createSignal(false)

  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<AuditPage>(path, signal))
  const path = () => {
    const site = siteDocument()?.facts.id
    if (site === undefined || !isAuditReadable()) return null
    const { kind, name } = auditFilter()
    const question = new URLSearchParams({
      limit: '50',
      ...(kind === null ? {} : { subjectKind: kind }),
      ...(name === null ? {} : { name }),
    })
    return `${isOfServer() ? '/api/audit' : sitePath(site, '/audit')}?${question}`
  }
  const list = async (asked: string, earlier: readonly AuditEntry[]) => {
    setAsking(true)
    const before = earlier.at(-1)?.number
    try {
      const page = await ask(before === undefined ? asked : `${asked}&before=${before}`)
      if (!page) return
      setTrouble(null)
      setEntries([...earlier, ...page.entries])
      setMore(page.more)
      if (page.choices) setChoices(page.choices)
      setAsking(false)
    } catch (cause) {
      setTrouble(sentenceOf(cause))
      setAsking(false)
    }
  }
  sync(path, (asked) => {
    setEntries([])
    setMore(false)
    if (asked !== null) void list(asked, [])
  })
  return (
    <Show
      when={isAuditReadable()}
      fallback={
        <p class="waiting">Who changed what is for engineers, approvers and administrators to read.</p>
      }
    >
      <div class="audit">
        <h2>Audit record</h2>
        <p>
          Every change of a record or a state, in one chain that shows when something in it was altered.
          Newest first.
        </p>
        <Show when={isWholeAuditReadable()}>
          <AuditCheck />
        </Show>
        <div class="audit-filters">
          <Show when={isWholeAuditReadable()}>
            <label>
              Of
              <select
                value={isOfServer() ? 'server' : 'site'}
                onChange={(event) => {
                  setOfServer(event.currentTarget.value === 'server')
                  narrowAudit({ kind: null, name: null })
                }}
              >
                <option value="site">{siteDocument()?.facts.name ?? 'This site'}</option>
                <option value="server">Accounts and the server</option>
              </select>
            </label>
          </Show>
          <Choice
            label="What"
            every="Everything"
            of={choices().kinds}
            nameOf={subjectName}
            chosen={auditFilter().kind}
            choose={(kind) => narrowAudit({ ...auditFilter(), kind })}
          />
          <Choice
            label="Who"
            every="Everyone"
            of={choices().names}
            nameOf={(name) => name}
            chosen={auditFilter().name}
            choose={(name) => narrowAudit({ ...auditFilter(), name })}
          />
        </div>
        <Show when={trouble()}>
          {(sentence) => (
            <p class="trouble" role="alert">
              {sentence()}
            </p>
          )}
        </Show>
        <ol class="audit-entries" aria-label="Entries of the audit record" aria-busy={isAsking()}>
          <For each={entries()} fallback={<li class="waiting">{isAsking() ? 'Asking …' : 'None.'}</li>}>
            {(entry) => <EntryItem entry={entry} linked={!isOfServer()} />}
          </For>
        </ol>
        <Show when={hasMore()}>
          <div class="buttons">
            <button
              type="button"
              disabled={isAsking()}
              onClick={() => {
                const asked = path()
                if (asked !== null) void list(asked, entries())
              }}
            >
              Older entries
            </button>
          </div>
        </Show>
      </div>
    </Show>
  )
}

/** One of several, or every one. What an address names stays offered though it does not occur. */
function Choice(props: {
  label: string
  every: string
  of: readonly string[]
  nameOf: (one: string) => string
  chosen: string | null
  choose: (one: string | null) => void
}) {
  const offered = () =>
    props.chosen === null || props.of.includes(props.chosen) ? props.of : [props.chosen, ...props.of]
  return (
    <label>
      {props.label}
      <select onChange={(event) => props.choose(event.currentTarget.value || null)}>
        <option value="" selected={props.chosen === null}>
          {props.every}
        </option>
        <For each={offered()}>
          {(one) => (
            <option value={one} selected={props.chosen === one}>
              {props.nameOf(one)}
            </option>
          )}
        </For>
      </select>
    </label>
  )
}
