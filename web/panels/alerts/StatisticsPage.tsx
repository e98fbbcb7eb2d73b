import { createSignal, For, Show } from 'solid-js'
import type { StatisticsDocument } from '#contract/alerts.ts'
import type { CountsOf } from '#domain/alerts/alert-statistics.ts'
import { timeToAcknowledgeFigure } from '../../derived/figures/time-to-acknowledge-figure.ts'
import { alertsDocument } from '../../state/alerts.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { sync } from '../../ui/sync.ts'
import { Figure } from '../../views/figure/Figure.tsx'
import { countCells, runSentences, statisticsHeadings } from './statistics-rows.ts'

/** How often alerts were about something, and how soon people answered. */
export function StatisticsPage() {
  const [statistics, setStatistics] = createSignal<StatisticsDocument | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<StatisticsDocument>(path, signal))
  sync(
    () => ({ site: siteDocument()?.facts.id, latest: alertsDocument()?.latest }),
    ({ site }) => {
      if (site === undefined) return
      ask(sitePath(site, '/alerts/statistics')).then(
        (answer) => {
          if (!answer) return
          setTrouble(null)
          setStatistics(answer)
        },
        (cause) => setTrouble(sentenceOf(cause)),
      )
    },
  )
  return (
    <section class="alerts-page" aria-label="Statistics of alerts">
      <Show when={trouble()}>
        {(sentence) => (
          <p class="trouble" role="alert">
            {sentence()}
            {statistics() ? ' What stands below is as last heard.' : ''}
          </p>
        )}
      </Show>
      <Show
        when={statistics()}
        fallback={<Show when={!trouble()}>{<p class="waiting">Asking for them …</p>}</Show>}
      >
        {(document) => (
          <>
            <p>
              All alerts ever raised, exercises left out, as of{' '}
              {formatInstant(document().asOfEpochMs, zone())}. Findings as shares of those closed, with 95 %
              intervals (Wilson).
            </p>
            <section class="scroll-across" aria-label="All alerts, scrolls sideways" tabindex="0">
              <CountTable
                caption="All of them"
                first=""
                rows={[{ of: 'All', ...document().statistics.all }]}
              />
            </section>
            <section aria-label="Floods and chattering">
              <h2>Floods and chattering</h2>
              <RunList sentences={runSentences(document().statistics, zone())} />
              <p class="waiting">
                More than ten in ten minutes are a flood, three of one level within an hour chattering: from
                memory of alarm-management practice. A level that chatters wants time to stand, or room to
                leave it.
              </p>
            </section>
            <div class="alert-figure">
              <Figure
                shown={() => timeToAcknowledgeFigure(document().statistics.byMonth, zone())}
                onChoose={() => undefined}
              />
            </div>
            <section class="scroll-across" aria-label="Alerts by month, scrolls sideways" tabindex="0">
              <CountTable caption="By month" first="Month" rows={document().statistics.byMonth} />
            </section>
            <section class="scroll-across" aria-label="Alerts by level, scrolls sideways" tabindex="0">
              <CountTable caption="By level" first="Level" rows={document().statistics.byLevel} />
            </section>
            <section class="scroll-across" aria-label="Alerts by instrument, scrolls sideways" tabindex="0">
              <CountTable
                caption="By instrument"
                first="Instrument"
                rows={document().statistics.byInstrument}
              />
            </section>
          </>
        )}
      </Show>
    </section>
  )
}

/** So many at first; the rest is opened. */
const mostRuns = 6

function RunList(props: { sentences: readonly string[] }) {
  return (
    <>
      <ul class="alert-lines">
        <For
          each={props.sentences.slice(0, mostRuns)}
          fallback={<li>None: never more than ten in ten minutes, nor three of one level in an hour.</li>}
        >
          {(sentence) => <li>{sentence}</li>}
        </For>
      </ul>
      <Show when={props.sentences.length > mostRuns}>
        <details class="record-more">
          <summary>{props.sentences.length - mostRuns} more</summary>
          <ul class="alert-lines">
            <For each={props.sentences.slice(mostRuns)}>{(sentence) => <li>{sentence}</li>}</For>
          </ul>
        </details>
      </Show>
    </>
  )
}

function CountTable(props: { caption: string; first: string; rows: readonly CountsOf[] }) {
  return (
    <table class="plain alert-counts">
      <caption>{props.caption}</caption>
      <thead>
        <tr>
          <Show when={props.first !== ''} fallback={<td />}>
            <th scope="col">{props.first}</th>
          </Show>
          <For each={statisticsHeadings}>{(heading) => <th scope="col">{heading}</th>}</For>
        </tr>
      </thead>
      <tbody>
        <For each={props.rows}>
          {(row) => (
            <tr>
              <th scope="row">{row.of}</th>
              <For each={countCells(row)}>{(cell) => <td>{cell}</td>}</For>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  )
}
