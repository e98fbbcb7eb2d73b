import { createMemo, For, Show } from 'solid-js'
import { fetchFieldGuide } from '../../state/field-guide.ts'
import { fieldPage, fieldPages, openFieldPage } from '../../state/field-page.ts'
import { readKnownEntries } from '../../state/field-work.ts'
import { reportTrouble } from '../../state/notices.ts'
import { setting } from '../../state/setting.ts'
import { raiseSheet, sheetHeight } from '../../state/sheet.ts'
import { siteDocument } from '../../state/site-document.ts'
import { movingSiteNowEpochMs } from '../../state/site-now.ts'
import { toLocalField } from '../../ui/format-instant.ts'
import { Later } from '../../ui/Later.tsx'
import { sync } from '../../ui/sync.ts'
import { fieldPageParts } from './field-pages.ts'
import { WaitingLine } from './WaitingLine.tsx'
import './field.css'

/** What is done along the works, one page at a time; all of it goes on without a network. */
export function FieldPanel() {
  const failed = (cause: unknown) => reportTrouble({ cause, retry: () => location.reload() })
  sync(
    () => siteDocument()?.facts.id,
    (site) => {
      if (site === undefined) return
      const read = () => readKnownEntries(site).catch((cause) => reportTrouble({ cause, retry: read }))
      void read()
      void fetchFieldGuide(site)
    },
  )
  // A guide of another day is asked for anew: a certificate runs out, a calibration comes into force.
  const day = createMemo(() =>
    toLocalField(movingSiteNowEpochMs(), siteDocument()?.facts.timeZone ?? 'UTC').slice(0, 10),
  )
  let dayAsked = day()
  sync(day, (today) => {
    const site = siteDocument()?.facts.id
    if (today !== dayAsked && site !== undefined) void fetchFieldGuide(site)
    dayAsked = today
  })
  // What stands below the fold of a low sheet is not found with a thumb.
  if (setting() === 'walk' && sheetHeight() === 'half') raiseSheet('full')
  return (
    <div class="field-panel">
      <nav class="field-pages" aria-label="Field work">
        <For each={fieldPages}>
          {(page) => (
            <button
              type="button"
              aria-current={fieldPage() === page ? 'page' : undefined}
              onClick={() => openFieldPage(page)}
            >
              {fieldPageParts[page].name}
            </button>
          )}
        </For>
      </nav>
      <WaitingLine />
      {/* What is typed at one site must not stand in a form of another. */}
      <Show
        when={siteDocument()?.facts.id}
        keyed
        fallback={<p class="waiting">The site is being opened …</p>}
      >
        {(_site) => (
          <Show when={fieldPage()} keyed>
            {(page) => (
              <Later
                when={true}
                load={fieldPageParts[page].load}
                waiting={`Fetching ${fieldPageParts[page].name.toLowerCase()} …`}
                failed={failed}
              />
            )}
          </Show>
        )}
      </Show>
    </div>
  )
}
