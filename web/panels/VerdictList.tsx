import { createSignal, For, Show } from 'solid-js'
import { hindranceTo } from '../state/permitted.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { RecordHistory } from './audit/RecordHistory.tsx'
import { VerdictShape } from './VerdictShape.tsx'
import { VerdictWithdrawalForm } from './VerdictWithdrawalForm.tsx'
import { type ListedVerdict, listedVerdicts } from './verdict-standing.ts'

/** Every verdict on a series, the last first, with what became of it and the way to take it back. */
export function VerdictList(props: { series: string }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [leaving, setLeaving] = createSignal<string | null>(null)
  const listed = () => {
    const document = siteDocument()
    return document
      ? listedVerdicts(props.series, document.verdicts, document.verdictWithdrawals, zone())
      : []
  }
  const wanted = () => listed().find(({ verdict, withdrawn }) => verdict.id === leaving() && !withdrawn)
  return (
    <div class="verdict-list">
      <Show
        when={listed().length > 0}
        fallback={<p>No person's verdict on readings of {props.series} is on record.</p>}
      >
        <section class="scroll-across" aria-label="Verdicts, scrolls sideways" tabindex="0">
          <table class="plain">
            <caption>
              Verdicts on {props.series}, newest first; the readings stay drawn and held against levels
            </caption>
            <thead>
              <tr>
                <th scope="col">Verdict</th>
                <th scope="col">Whether it holds</th>
                <th scope="col">From, until</th>
                <th scope="col">Reason</th>
                <th scope="col">Also considered</th>
                <th scope="col">By</th>
              </tr>
            </thead>
            <tbody>
              <For each={listed()}>
                {(one) => <VerdictRow one={one} zone={zone()} withdraw={() => setLeaving(one.verdict.id)} />}
              </For>
            </tbody>
          </table>
        </section>
      </Show>
      <RecordHistory
        of={`verdicts on ${props.series}`}
        records={['verdicts', 'verdictWithdrawals'].map((kind) => ({
          kind,
          keys: listed().map(({ verdict }) => verdict.id),
        }))}
      />
      <Show when={wanted()} keyed>
        {({ verdict }) => <VerdictWithdrawalForm verdict={verdict} leave={() => setLeaving(null)} />}
      </Show>
    </div>
  )
}

function VerdictRow(props: { one: ListedVerdict; zone: string; withdraw: () => void }) {
  const verdict = () => props.one.verdict
  return (
    <tr classList={{ 'not-standing': props.one.withdrawn }}>
      <th scope="row">
        <VerdictShape verdict={verdict().verdict} />
        {verdict().verdict} <small>{verdict().id}</small>
      </th>
      <td>
        {props.one.sentence}
        <Show when={!props.one.withdrawn && hindranceTo('change-records') === null}>
          <div class="buttons">
            <button type="button" aria-label={`Withdraw ${verdict().id}`} onClick={() => props.withdraw()}>
              Withdraw
            </button>
          </div>
        </Show>
      </td>
      <td>
        {formatInstant(verdict().fromAt, props.zone)} to{' '}
        {verdict().untilAt === null ? 'no end yet' : formatInstant(verdict().untilAt ?? 0, props.zone)}
      </td>
      <td>{verdict().reason}</td>
      <td>{verdict().alternatives}</td>
      <td>
        {verdict().author} <small>{formatInstant(verdict().at, props.zone)}</small>
      </td>
    </tr>
  )
}
