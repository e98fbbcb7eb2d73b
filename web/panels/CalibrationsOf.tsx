import { createSignal, For, Show } from 'solid-js'
import type { CalibrationList, CalibrationVersion } from '#contract/calibration-draft.ts'
import type { Series } from '#contract/site-document.ts'
import { askServer, sentenceOf } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { openSheet } from '../state/sheet.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatInstant, formatOffset, formatShortInstant } from '../ui/format-instant.ts'
import { withUnit } from '../ui/format-value.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { sync } from '../ui/sync.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import type { AirShareProposal } from './air-share-draft.ts'
import { barometerSentences } from './air-term.ts'
import { RecordHistory } from './audit/RecordHistory.tsx'
import { CalibrationForm } from './CalibrationForm.tsx'
import { clockSentences } from './clock-sentences.ts'
import { CorrectionList } from './corrections/CorrectionList.tsx'
import { createCorrections } from './corrections/create-corrections.ts'
import { joinSentence } from './join-sentence.ts'

/** Every dated version of how a series is reduced, and the way to a new one. */
export function CalibrationsOf(props: {
  series: Series
  /** Told what is listed; null while nothing is. */
  listed: (list: CalibrationList | null) => void
  /** What an estimate proposes for a draft; each new one opens a draft with it. */
  proposed: AirShareProposal | null
}) {
  const [list, setList] = createSignal<CalibrationList | null>(null)
  const [sentence, setSentence] = createSignal<string | null>(null)
  const [drafting, setDrafting] = createSignal<{ readonly proposal: AirShareProposal | null } | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const path = () =>
    props.series.made
      ? null
      : sitePath(
          siteDocument()?.facts.id ?? '',
          `/calibrations?${new URLSearchParams({ sensor: props.series.id })}`,
        )
  const ask = latestOnly((asked: string, signal: AbortSignal) => askServer<CalibrationList>(asked, signal))
  const listAgain = (asked: string) =>
    ask(asked).then(
      (answer) => {
        // A series that is made of others asks nothing, so it supersedes no question that is still out.
        if (!answer || asked !== path()) return
        setSentence(null)
        setList(answer)
      },
      (cause) => {
        setList(null)
        setSentence(sentenceOf(cause))
      },
    )
  sync(path, (asked) => {
    setDrafting(null)
    setList(null)
    setSentence(
      asked === null
        ? 'This series is made from others by its instrument; the calibrations are those of its members.'
        : null,
    )
    if (asked !== null) void listAgain(asked)
  })
  sync(list, (known) => props.listed(known))
  sync(
    () => props.proposed,
    (proposal) => proposal && setDrafting({ proposal }),
  )
  const corrections = createCorrections()
  const newestFirst = () => [...(list()?.versions ?? [])].reverse()
  return (
    <section class="calibrations" aria-label="Calibrations">
      <h3>Calibrations</h3>
      <Show when={sentence()}>{(text) => <p class="waiting">{text()}</p>}</Show>
      <Show when={list()}>
        {(known) => (
          <>
            <For each={known().joins}>
              {(join) => <p>{joinSentence(join, known().sensor, known().unit, zone())}</p>}
            </For>
            <For each={clockSentences(known(), zone())}>{(said) => <p>{said}</p>}</For>
            <For each={barometerSentences(known(), zone())}>{(said) => <p>{said}</p>}</For>
            <section class="scroll-across" aria-label="Versions, scrolls sideways" tabindex="0">
              <table class="plain">
                <caption>Versions of {known().sensor}, newest first; none is ever edited</caption>
                <thead>
                  <tr>
                    <th scope="col">Version</th>
                    <th scope="col">Holds from</th>
                    <th scope="col">Chain</th>
                    <th scope="col">Certificate, due</th>
                    <th scope="col">Standard uncertainty</th>
                    <th scope="col">Zero readings</th>
                    <th scope="col">Entered by, why</th>
                  </tr>
                </thead>
                <tbody>
                  <For each={newestFirst()} fallback={<NoVersion />}>
                    {(version) => <VersionRow version={version} unit={known().unit} zone={zone()} />}
                  </For>
                </tbody>
              </table>
            </section>
            <CorrectionList
              corrections={corrections}
              about={known().sensor}
              approved={() => {
                const asked = path()
                if (asked !== null) void listAgain(asked)
              }}
            />
            <div class="buttons">
              <button type="button" onClick={() => openSheet('what-if')}>
                Try another in the sandbox
              </button>
            </div>
            <RecordHistory
              of="these calibrations"
              records={[
                { kind: 'sensors', keys: [known().sensor] },
                { kind: 'calibrations', keys: known().versions.map(({ row }) => row.id) },
              ]}
            />
            <Show
              when={drafting()}
              keyed
              fallback={
                <WhenAllowed to="change-records" toTry={true}>
                  <div class="buttons">
                    <button type="button" onClick={() => setDrafting({ proposal: null })}>
                      Draft a new version
                    </button>
                  </div>
                </WhenAllowed>
              }
            >
              {(draft) => (
                <CalibrationForm
                  series={props.series}
                  list={known()}
                  proposal={draft.proposal}
                  zone={zone()}
                  saved={() => {
                    setDrafting(null)
                    const asked = path()
                    if (asked !== null) void listAgain(asked)
                  }}
                  leave={() => setDrafting(null)}
                />
              )}
            </Show>
          </>
        )}
      </Show>
    </section>
  )
}

const NoVersion = () => (
  <tr>
    <td colspan="7">It has none: its readings have no value until there is one.</td>
  </tr>
)

function VersionRow(props: { version: CalibrationVersion; unit: string; zone: string }) {
  const row = () => props.version.row
  return (
    <tr>
      <th scope="row">
        {row().version} <small>{row().id}</small>
      </th>
      <td>
        {formatInstant(row().validFrom, props.zone)} {formatOffset(row().validFrom, props.zone)}
      </td>
      <td>
        <ol class="chain">
          <For each={props.version.stepRows}>
            {(step) => (
              <li>
                {step.kind} <small>{step.parameters}</small>
              </li>
            )}
          </For>
        </ol>
      </td>
      <td>
        {row().certificate ?? 'no certificate'}
        <Show when={row().dueAt}>{(due) => <>, due {formatInstant(due(), props.zone)}</>}</Show>
      </td>
      <td>{withUnit(String(row().standardUncertainty), props.unit)}</td>
      <td class="zero-readings">
        {props.version.baselineSentence ?? 'Never in force: another version begins with it.'}
      </td>
      <td>
        {row().author}: {row().reason}{' '}
        <small>entered {formatShortInstant(props.version.recordedAtEpochMs, props.zone)}</small>
      </td>
    </tr>
  )
}
