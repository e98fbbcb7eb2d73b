import { For, Show } from 'solid-js'
import type { ReportList } from '#contract/reports.ts'
import type { IssuedReport, ReportKind } from '#domain/report/report.ts'
import { dayText, instantText, siteDay } from '#domain/report/site-days.ts'
import { siteDocument } from '../../state/site-document.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import type { Reports } from './create-reports.ts'
import { RebuildReport } from './RebuildReport.tsx'
import { kindNames } from './report-draft.ts'

/** Which reports are due, and those that were issued, with their files and hashes. */
export function IssuedReports(props: { reports: Reports; make: (kind: ReportKind) => void }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <Show
      when={props.reports.list()}
      fallback={<p class="waiting">{props.reports.trouble() ?? 'Fetching the list of reports …'}</p>}
    >
      {(list) => (
        <section class="reports-page" aria-label="Issued reports">
          <Show when={props.reports.trouble()}>
            {(sentence) => <p class="trouble">The list may be of before: {sentence()}</p>}
          </Show>
          <h2>Due</h2>
          <Show
            when={list().due.length > 0}
            fallback={<p>The last whole week and the last whole month have their reports.</p>}
          >
            <ul>
              <For each={list().due}>
                {(due) => (
                  <li>
                    <strong>{kindNames[due.kind]}</strong> report for {periodText(due, zone())}: not issued
                    yet.{' '}
                    <button type="button" onClick={() => props.make(due.kind)}>
                      Make it
                    </button>
                  </li>
                )}
              </For>
            </ul>
          </Show>
          <h2>Issued</h2>
          <Show when={list().reports.length > 0} fallback={<p>No report has been issued.</p>}>
            <ul class="issued-reports">
              {/* By number: a list that is fetched again must not close what is read or stop what is made again. */}
              <For each={list().reports.map(({ id }) => id)}>
                {(id) => (
                  <Show when={list().reports.find((one) => one.id === id)}>
                    {(report) => (
                      <IssuedCard
                        report={report()}
                        lost={list().lost?.find((one) => one.report === id)?.sentences ?? []}
                        reports={props.reports}
                        zone={zone()}
                      />
                    )}
                  </Show>
                )}
              </For>
            </ul>
          </Show>
        </section>
      )}
    </Show>
  )
}

function IssuedCard(props: {
  report: IssuedReport
  /** What of it or of its frozen data is damaged or gone, in sentences. */
  lost: readonly string[]
  reports: Reports
  zone: string
}) {
  const manifest = () => props.report.manifest
  return (
    <li>
      <h3>
        {kindNames[manifest().kind]} report {manifest().number}, {periodText(manifest(), props.zone)}
      </h3>
      <p>
        Issued {instantText(props.report.issuedAtEpochMs, props.zone)} by {props.report.issuedBy},{' '}
        {manifest().paper}. Data received until {instantText(manifest().cutOffEpochMs, props.zone)}, frozen
        set <code>{manifest().frozenSet}</code>.
      </p>
      <For each={props.lost}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
      <dl class="report-files">
        <For each={props.report.files}>
          {(file) => (
            <>
              <dt>
                <a href={props.reports.fileUrl(props.report, file.name)} download="">
                  {file.name}
                </a>
                , {Math.ceil(file.bytes / 1024)} KiB
              </dt>
              <dd>
                SHA-256 <code>{file.sha256}</code>
              </dd>
            </>
          )}
        </For>
      </dl>
      <details>
        <summary>Statement, and whether it can be made again</summary>
        <p class="report-statement">{manifest().statement.text}</p>
        {/* Whoever may not read all records would make another report. */}
        <WhenAllowed to="read-all">
          <RebuildReport report={props.report} reports={props.reports} />
        </WhenAllowed>
      </details>
    </li>
  )
}

/** `1 Sep 2027 to 30 Sep 2027`, last day included. */
export const periodText = (
  period: Pick<ReportList['due'][number], 'fromEpochMs' | 'untilEpochMs'>,
  zone: string,
): string =>
  `${dayText(siteDay(period.fromEpochMs, zone))} to ${dayText(siteDay(period.untilEpochMs - 1, zone))}`
