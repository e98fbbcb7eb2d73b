import { For, Show } from 'solid-js'
import { Dynamic } from 'solid-js/web'
import { alertsDocument, alertsWaiting } from '../state/alerts.ts'
import { isFrozen, notInFrozenSentence } from '../state/frozen.ts'
import { gatheringFor } from '../state/meeting-work.ts'
import { reportTrouble } from '../state/notices.ts'
import {
  openSheet,
  raiseSheet,
  type SheetHeight,
  type SheetTab,
  sheetHeight,
  sheetTab,
  sheetTabs,
} from '../state/sheet.ts'
import { Later } from '../ui/Later.tsx'
import { sync } from '../ui/sync.ts'
import { SelectionStrip } from './SelectionStrip.tsx'
import { sheetPages } from './sheet-pages.tsx'

/** The side sheet: what is selected, and one of several ways to look at it. On a narrow screen it comes from below. */
export function SideSheet() {
  const moveTab = (event: KeyboardEvent) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key]
    if (step === undefined) return
    const place = (sheetTabs.indexOf(sheetTab()) + step + sheetTabs.length) % sheetTabs.length
    openSheet(sheetTabs[place] ?? 'history')
    document.getElementById(`tab-${sheetTab()}`)?.focus()
    event.preventDefault()
  }
  /** In one row on a telephone: the tab that is open is in sight. */
  const keepTabInSight = (row: HTMLElement) =>
    sync(sheetTab, (tab) => {
      const open = row.querySelector<HTMLElement>(`#tab-${tab}`)
      if (open && row.scrollWidth > row.clientWidth)
        row.scrollLeft = open.offsetLeft - row.offsetLeft - (row.clientWidth - open.offsetWidth) / 2
    })
  return (
    <aside class="sheet" id="sheet" aria-label="Side sheet">
      <div class="sheet-heights">
        <For each={heights}>
          {(height) => (
            <button
              type="button"
              aria-pressed={sheetHeight() === height.is}
              onClick={() => raiseSheet(height.is)}
            >
              {height.name}
            </button>
          )}
        </For>
      </div>
      <SelectionStrip />
      <Show when={gatheringFor() !== null}>
        <Later
          when={true}
          load={async () => (await import('./meetings/GatheringStrip.tsx')).GatheringStrip}
          waiting="Fetching the boards …"
          failed={(cause) => reportTrouble({ cause })}
        />
      </Show>
      <div class="tabs" role="tablist" aria-label="Ways to look" onKeyDown={moveTab} ref={keepTabInSight}>
        <For each={sheetTabs}>
          {(tab) => (
            <button
              type="button"
              role="tab"
              id={`tab-${tab}`}
              aria-selected={sheetTab() === tab}
              aria-controls="tab-panel"
              tabIndex={sheetTab() === tab ? 0 : -1}
              onClick={() => openSheet(tab)}
            >
              {sheetPages[tab].name}
              {tab === 'alerts' && <AlertsCount />}
            </button>
          )}
        </For>
      </div>
      <div class="tab-panel" role="tabpanel" id="tab-panel" aria-labelledby={`tab-${sheetTab()}`}>
        <Show
          when={isFrozen() && outsideFrozen.has(sheetTab())}
          fallback={<Dynamic component={sheetPages[sheetTab()].Page} />}
        >
          <p class="waiting">{notInFrozenSentence}</p>
        </Show>
      </div>
    </aside>
  )
}

/** How many alerts nobody has taken up; a question mark where that is not known. */
function AlertsCount() {
  const waiting = () => alertsWaiting()
  return (
    <Show when={alertsDocument() !== null && waiting() !== 0}>
      {' '}
      <span class="alerts-count" aria-hidden="true">
        {waiting() ?? '?'}
      </span>
      <span class="visually-hidden">
        {waiting() === null ? ', how many need somebody is not known' : `, ${waiting()} need somebody`}
      </span>
    </Show>
  )
}

/** Nothing that these show is in a frozen data set. */
const outsideFrozen: ReadonlySet<SheetTab> = new Set(['field', 'imports', 'audit'])

const heights: readonly { readonly is: SheetHeight; readonly name: string }[] = [
  { is: 'low', name: 'Lower' },
  { is: 'half', name: 'Half' },
  { is: 'full', name: 'Full' },
]
