import { For, Match, Switch } from 'solid-js'
import { firstColour } from '../state/first-colour.ts'
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
import { RecordPanel } from './RecordPanel.tsx'
import { RegisterPanel } from './RegisterPanel.tsx'
import { SelectionStrip } from './SelectionStrip.tsx'

/** The side sheet: what is selected, and one of several ways to look at it. On a narrow screen it comes from below. */
export function SideSheet() {
  const failed = (cause: unknown) => reportTrouble({ cause, retry: () => location.reload() })
  const moveTab = (event: KeyboardEvent) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key]
    if (step === undefined) return
    const place = (sheetTabs.indexOf(sheetTab()) + step + sheetTabs.length) % sheetTabs.length
    openSheet(sheetTabs[place] ?? 'history')
    document.getElementById(`tab-${sheetTab()}`)?.focus()
    event.preventDefault()
  }
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
      <div class="tabs" role="tablist" aria-label="Ways to look" onKeyDown={moveTab}>
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
              {tabNames[tab]}
            </button>
          )}
        </For>
      </div>
      <div class="tab-panel" role="tabpanel" id="tab-panel" aria-labelledby={`tab-${sheetTab()}`}>
        <Switch>
          <Match when={sheetTab() === 'section'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./SectionPanel.tsx')).SectionPanel}
              waiting="Fetching the section …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'profile'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./ProfilePanel.tsx')).ProfilePanel}
              waiting="Fetching the depth profile …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'history'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./HistoryPanel.tsx')).HistoryPanel}
              waiting="Fetching readings over time …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'record'}>
            <RecordPanel />
          </Match>
          <Match when={sheetTab() === 'ground'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./ground/GroundPanel.tsx')).GroundPanel}
              waiting="Fetching the analyses …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'field'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./field/FieldPanel.tsx')).FieldPanel}
              waiting="Fetching field work …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'network'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./network/NetworkPanel.tsx')).NetworkPanel}
              waiting="Fetching the network …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'register'}>
            <RegisterPanel />
          </Match>
          <Match when={sheetTab() === 'imports'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./ImportsPanel.tsx')).ImportsPanel}
              waiting="Fetching imports …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'duties'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./duties/DutiesPanel.tsx')).DutiesPanel}
              waiting="Fetching who is told …"
              failed={failed}
            />
          </Match>
          <Match when={sheetTab() === 'levels'}>
            <Later
              when={firstColour()}
              load={async () => (await import('./levels/LevelsPanel.tsx')).LevelsPanel}
              waiting="Fetching trigger levels …"
              failed={failed}
            />
          </Match>
        </Switch>
      </div>
    </aside>
  )
}

const tabNames: Readonly<Record<SheetTab, string>> = {
  section: 'Section',
  profile: 'Depth profile',
  history: 'Readings over time',
  record: 'Record',
  ground: 'Ground',
  field: 'Field work',
  network: 'Network',
  register: 'Register',
  imports: 'Imports',
  levels: 'Trigger levels',
  duties: 'Who is told',
}

const heights: readonly { readonly is: SheetHeight; readonly name: string }[] = [
  { is: 'low', name: 'Lower' },
  { is: 'half', name: 'Half' },
  { is: 'full', name: 'Full' },
]
