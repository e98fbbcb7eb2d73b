import { createSignal, For, Match, Switch } from 'solid-js'
import type { ReportKind } from '#domain/report/report.ts'
import { siteDocument } from '../../state/site-document.ts'
import { sync } from '../../ui/sync.ts'
import { createReports } from './create-reports.ts'
import { IssuedReports } from './IssuedReports.tsx'
import { MakeReport } from './MakeReport.tsx'
import './reports.css'

/** Reports: which are due, which were issued, and making the next. */
export function ReportsPanel() {
  const reports = createReports()
  const [making, setMaking] = createSignal<ReportKind | null>(null)
  sync(
    () => siteDocument()?.facts.id,
    (site) => {
      if (site) void reports.refresh()
    },
  )
  const pages = [
    { name: 'Due and issued', opens: () => setMaking(null), is: () => making() === null },
    { name: 'Make a report', opens: () => setMaking(making() ?? 'on-request'), is: () => making() !== null },
  ]
  return (
    <div class="reports-panel">
      <nav class="reports-pages" aria-label="Reports">
        <For each={pages}>
          {({ name, opens, is }) => (
            <button type="button" aria-current={is() ? 'page' : undefined} onClick={opens}>
              {name}
            </button>
          )}
        </For>
      </nav>
      <Switch>
        <Match when={making() === null}>
          <IssuedReports reports={reports} make={setMaking} />
        </Match>
        <Match when={making()} keyed>
          {(kind) => <MakeReport reports={reports} kind={kind} done={() => setMaking(null)} />}
        </Match>
      </Switch>
    </div>
  )
}
