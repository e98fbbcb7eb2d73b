import { createMemo, For, Show } from 'solid-js'
import { type AuditEntry, thisServer } from '#domain/audit/audit-entry.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { selectInstrument, selectPoint } from '../../state/selection.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant, formatOffset } from '../../ui/format-instant.ts'
import { type ChangeLine, changeLines } from './change-lines.ts'
import { entrySentence } from './entry-words.ts'
import { subjectPlace } from './subject-place.ts'

/** So many values are shown without being asked for. */
const fewValues = 4

/** One entry: what happened, when, by whom, why, and the values before and after. */
export function EntryItem(props: {
  entry: AuditEntry
  /** Offers the way to the record: not where the list stands beside it. */
  linked: boolean
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const lines = createMemo(() => changeLines(props.entry, zone()))
  const place = createMemo(() => {
    const site = siteDocument()
    return props.linked && site ? subjectPlace(props.entry, site) : null
  })
  const show = () => {
    const found = place()
    if (!found) return
    if (found.point !== null) selectPoint(found.point)
    else if (found.instrument !== null) selectInstrument(found.instrument)
    openSheet(found.tab)
  }
  return (
    <li class="audit-entry">
      <p class="audit-what">
        <span>{entrySentence(props.entry)}</span>
        <Show when={place()}>
          <button type="button" aria-label={`Show ${entrySentence(props.entry)}`} onClick={show}>
            Show
          </button>
        </Show>
      </p>
      <p class="audit-facts">
        <time datetime={new Date(props.entry.atEpochMs).toISOString()}>
          {formatInstant(props.entry.atEpochMs, zone())} {formatOffset(props.entry.atEpochMs, zone())}
        </time>
        {' · '}
        {byWhom(props.entry)}
        {' · entry '}
        {props.entry.number}
      </p>
      <Show when={props.entry.why}>
        <p class="audit-why">{props.entry.why}</p>
      </Show>
      <Show when={lines().length > 0}>
        <Show when={lines().length > fewValues} fallback={<Changes lines={lines()} />}>
          <details class="audit-values">
            <summary>{lines().length} values</summary>
            <Changes lines={lines()} />
          </details>
        </Show>
      </Show>
    </li>
  )
}

const Changes = (props: { lines: readonly ChangeLine[] }) => (
  <dl class="audit-changes">
    <For each={props.lines}>
      {(line) => (
        <div>
          <dt>{line.name}</dt>
          <dd>
            <Show when={line.before !== null}>
              <span class="audit-before">{line.before}</span> →{' '}
            </Show>
            {line.after ?? 'nothing'}
          </dd>
        </div>
      )}
    </For>
  </dl>
)

/** A name alone is what somebody wrote, or what the server calls itself; an account was signed in. */
function byWhom({ account, name, subjectKind }: AuditEntry): string {
  const isOwnWord = name === thisServer || name === folderAuthor || unsigned.has(subjectKind)
  return account !== null || isOwnWord ? name : `${name} (a name as written, no account)`
}

const unsigned: ReadonlySet<string> = new Set(['batch', 'field-entry'])
