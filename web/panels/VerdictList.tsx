import { createMemo, createSignal, For, Show } from 'solid-js'
import { confidenceMeans, effectsOf } from '#domain/site/verdict-words.ts'
import { reportTrouble } from '../state/notices.ts'
import { hindranceTo } from '../state/permitted.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { Later } from '../ui/Later.tsx'
import { RecordHistory } from './audit/RecordHistory.tsx'
import { EvidenceThen } from './EvidenceThen.tsx'
import { VerdictShape } from './VerdictShape.tsx'
import { VerdictWithdrawalForm } from './VerdictWithdrawalForm.tsx'
import { withdrawalDrafts } from './verdict-drafts.ts'
import { type ListedVerdict, listedVerdicts } from './verdict-standing.ts'

/** Every verdict on a series, the last first, with what became of it and the way to take it back. */
export function VerdictList(props: {
  series: string
  /** Offers to hold them against what is known now. */
  lookAgain?: boolean
}) {
  const [opened, setOpened] = createSignal(false)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [leaving, setLeaving] = createSignal<string | null>(null)
  const listed = () => {
    const document = siteDocument()
    return document
      ? listedVerdicts(props.series, document.verdicts, document.verdictWithdrawals, zone())
      : []
  }
  const standing = () => listed().filter(({ withdrawn }) => !withdrawn)
  const wanted = createMemo(
    () =>
      standing().find(({ verdict }) => verdict.id === leaving())?.verdict ??
      standing().find(({ verdict }) => withdrawalDrafts.of(verdict.id) !== null)?.verdict,
    undefined,
    { equals: (one, other) => one?.id === other?.id },
  )
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
                <th scope="col">Laid on, how sure</th>
                <th scope="col">What follows</th>
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
      <For each={listed()}>{({ verdict }) => <EvidenceThen verdict={verdict} />}</For>
      <RecordHistory
        of={`verdicts on ${props.series}`}
        records={[
          ...['verdicts', 'verdictWithdrawals'].map((kind) => ({
            kind,
            keys: listed().map(({ verdict }) => verdict.id),
          })),
          {
            kind: 'verdictReviews',
            keys: (siteDocument()?.verdictReviews ?? []).flatMap(({ verdict, at }) =>
              listed().some((one) => one.verdict.id === verdict) ? [JSON.stringify([verdict, at])] : [],
            ),
          },
        ]}
      />
      <Show when={props.lookAgain && listed().length > 0}>
        <details class="record-more" onToggle={(event) => setOpened(event.currentTarget.open)}>
          <summary>Verdicts to look at again</summary>
          <Later
            when={opened()}
            load={async () => {
              const { VerdictsAgain } = await import('./review/VerdictsAgain.tsx')
              return () => <VerdictsAgain series={props.series} />
            }}
            waiting="Fetching what they are held against …"
            failed={(cause) => reportTrouble({ cause })}
          />
        </details>
      </Show>
      <Show when={wanted()} keyed>
        {(verdict) => <VerdictWithdrawalForm verdict={verdict} leave={() => setLeaving(null)} />}
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
      <td>
        <Show when={verdict().cause} fallback="not said">
          {(cause) => cause()}
        </Show>
        <Show when={verdict().confidence}>
          {(word) => (
            <small>
              {' '}
              {word()}: {confidenceMeans[word()]}
            </small>
          )}
        </Show>
      </td>
      <td>{effectsOf(verdict()).join(', ') || 'nothing'}</td>
      <td>{verdict().reason}</td>
      <td>{verdict().alternatives}</td>
      <td>
        {verdict().author} <small>{formatInstant(verdict().at, props.zone)}</small>
      </td>
    </tr>
  )
}
