import { createMemo, createSignal, For, Show } from 'solid-js'
import { papers, type ReportKind, type ReportPart, reportKinds, reportParts } from '#domain/report/report.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { announce } from '../../ui/announce.ts'
import { fromLocalField } from '../../ui/format-instant.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { FormField } from '../signed/FormField.tsx'
import { LineField } from '../signed/LineField.tsx'
import { WordsField } from '../signed/WordsField.tsx'
import { ChosenViews } from './ChosenViews.tsx'
import { createMaking, type Making } from './create-making.ts'
import { type PreparedReport, type Reports, sha256Of } from './create-reports.ts'
import { MakingProgress } from './MakingProgress.tsx'
import { ReportPreview } from './ReportPreview.tsx'
import { beginDraft, draftFault, kindNames, manifestOf, partNames, type ReportDraft } from './report-draft.ts'

type Field = 'kind' | 'from' | 'until' | 'cutOff' | 'paper' | 'statement'

/** Freezes the data, makes the report from them, shows it as it will be, and issues exactly that. */
export function MakeReport(props: { reports: Reports; kind: ReportKind; done: () => void; making?: Making }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const now = () => props.reports.list()?.asOfEpochMs ?? siteNowEpochMs()
  const [draft, setDraft] = createSignal<ReportDraft>(beginDraft(props.kind, now(), zone()))
  const [prepared, setPrepared] = createSignal<{ of: string; report: PreparedReport } | null>(null)
  const making = props.making ?? createMaking()
  const form = createSignedForm<Field>(fieldOf)
  const write = (changed: Partial<ReportDraft>) => setDraft({ ...draft(), ...changed })
  const fault = createMemo(() => draftFault(draft(), zone()))
  /** Which draft something was made of: under another name it is another report. */
  const signature = () => JSON.stringify([draft(), form.author()])
  const fresh = () => (prepared()?.of === signature() ? (prepared()?.report ?? null) : null)
  const prepare = async (author: string) => {
    const [of, wanted, list] = [signature(), draft(), props.reports.list()]
    if (!list) return
    const report = await making.during(async (signal) => {
      making.tell('Freezing the data: what arrives from now on is not in this report …', 0.01)
      const cut = wanted.cutOff === '' ? null : fromLocalField(wanted.cutOff, zone())
      const frozen = await props.reports.freeze(cut, author, signal)
      signal.throwIfAborted()
      const manifest = manifestOf(wanted, frozen, list, {
        author,
        atEpochMs: siteNowEpochMs(),
        timeZone: zone(),
      })
      const made = await making.make(manifest, signal)
      const sha256 = { 'report.html': await sha256Of(made.html), 'report.pdf': await sha256Of(made.pdf) }
      return { manifest, made, sha256 }
    })
    if (report) {
      setPrepared({ of, report })
      announce(`The report is made, ${report.made.pages} pages. Look through it before it is issued.`)
    }
  }
  const issue = (report: PreparedReport) =>
    form.send(async () => {
      const issued = await props.reports.issue(report)
      announce(`${kindNames[issued.manifest.kind]} report ${issued.manifest.number} is issued`)
      props.done()
    })
  const toggle = (part: ReportPart) =>
    write({
      parts: draft().parts.includes(part)
        ? draft().parts.filter((one) => one !== part)
        : [...draft().parts, part],
    })
  return (
    <section class="reports-page" aria-label="Make a report">
      <h2>Make a report</h2>
      <WhenAllowed to="change-records">
        <form class="verdict-form" aria-label="Report" onSubmit={form.submits(prepare)}>
          <FormField form={form} field="kind" label="Kind">
            <select
              id={form.idOf('kind')}
              value={draft().kind}
              onInput={(event) => {
                const kind = event.currentTarget.value as ReportKind
                const { from, until } = beginDraft(kind, now(), zone())
                write({ kind, from, until })
              }}
            >
              <For each={reportKinds}>{(kind) => <option value={kind}>{kindNames[kind]}</option>}</For>
            </select>
          </FormField>
          <FormField form={form} field="paper" label="Paper">
            <select
              id={form.idOf('paper')}
              value={draft().paper}
              onInput={(event) => write({ paper: event.currentTarget.value as ReportDraft['paper'] })}
            >
              <For each={papers}>{(paper) => <option value={paper}>{paper}</option>}</For>
            </select>
          </FormField>
          <LineField
            form={form}
            field="from"
            label="Period from"
            hint={`site time, ${zone()}`}
            type="datetime-local"
            value={draft().from}
            write={(from) => write({ from })}
          />
          <LineField
            form={form}
            field="until"
            label="until"
            hint="no longer part of it"
            type="datetime-local"
            value={draft().until}
            write={(until) => write({ until })}
          />
          <LineField
            form={form}
            field="cutOff"
            label="Data received until"
            hint="empty: now. What is received later is not in the report"
            type="datetime-local"
            mayBeEmpty
            value={draft().cutOff}
            write={(cutOff) => write({ cutOff })}
          />
          <fieldset class="report-parts wide">
            <legend>Parts</legend>
            <For each={reportParts}>
              {(part) => (
                <label>
                  <input
                    type="checkbox"
                    checked={draft().parts.includes(part)}
                    onChange={() => toggle(part)}
                  />
                  {partNames[part]}
                </label>
              )}
            </For>
            <small>
              Your statement, changes since the last issue, completeness, values, cautions and how it was made
              stand in every report.
            </small>
          </fieldset>
          <ChosenViews views={draft().views} write={(views) => write({ views })} />
          <WordsField
            form={form}
            field="statement"
            label="Your statement"
            hint="stands first: what the readings show, what they do not, and what follows. Empty lines part paragraphs"
            wide
            mostCharacters={20_000}
            value={draft().statement}
            write={(statement) => write({ statement })}
          />
          <AuthorField form={form} />
          <div class="buttons wide">
            <Show when={fault()}>{(found) => <p class="waiting">{found().sentence}</p>}</Show>
            <button
              type="submit"
              disabled={fault() !== null || form.author().trim() === '' || making.at() !== null}
            >
              Freeze the data and make it
            </button>
          </div>
        </form>
        {form.faults.summary()}
        <MakingProgress making={making} />
        <Show when={prepared()}>
          {(made) => (
            <>
              <h3>As it will be given out</h3>
              <ReportPreview
                made={made().report.made}
                name={`${made().report.manifest.site}-${made().report.manifest.kind}-${made().report.manifest.number}`}
              />
              <Show
                when={fresh()}
                fallback={
                  <p class="trouble">You changed something since this was made. Make it again to issue it.</p>
                }
              >
                {(report) => (
                  <div class="buttons">
                    <button
                      type="button"
                      class="primary"
                      disabled={form.sending()}
                      onClick={() => void issue(report())}
                    >
                      Issue it under the name {report().manifest.statement.author}
                    </button>
                    <small>An issued report is never changed; another one follows it.</small>
                  </div>
                )}
              </Show>
            </>
          )}
        </Show>
      </WhenAllowed>
    </section>
  )
}

/** Beside which field the server's word on a column is told. */
const fieldOf = (column: string): Field | null => {
  const first = column.split('.')[0]
  const fields: Readonly<Record<string, Field>> = {
    statement: 'statement',
    fromEpochMs: 'from',
    untilEpochMs: 'until',
    cutOffEpochMs: 'cutOff',
    kind: 'kind',
    paper: 'paper',
  }
  return fields[first ?? ''] ?? null
}
