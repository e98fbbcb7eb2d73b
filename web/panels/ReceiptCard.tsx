import { For, Show } from 'solid-js'
import type { Receipt } from '#contract/receipt.ts'
import { formatInstant, formatShortInstant } from '../ui/format-instant.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'

/** What became of one file, in counts that add up to every reading in it. */
export function ReceiptCard(props: {
  receipt: Receipt
  zone: string
  showQuarantine: () => void
  retry: () => void
}) {
  const counts = () => [
    { name: 'accepted', count: props.receipt.accepted },
    { name: 'repeated', count: props.receipt.repeated },
    { name: 'conflicting', count: props.receipt.conflicting },
    { name: 'quarantined', count: props.receipt.quarantined },
    { name: 'absent', count: props.receipt.absent },
  ]
  return (
    <article class={`receipt receipt-${props.receipt.outcome}`}>
      <header>
        <strong>{props.receipt.fileName}</strong>
        <span>{outcomeNames[props.receipt.outcome]}</span>
      </header>
      <Show when={props.receipt.message}>
        {(message) => <p class={props.receipt.outcome === 'taken' ? '' : 'trouble'}>{message()}</p>}
      </Show>
      <dl class="counts">
        <For each={counts()}>
          {(one) => (
            <div>
              <dt>{one.name}</dt>
              <dd>{one.count.toLocaleString('en-GB')}</dd>
            </div>
          )}
        </For>
      </dl>
      <p class="receipt-facts">
        Batch {props.receipt.batch}, received {formatInstant(props.receipt.receivedAtEpochMs, props.zone)}{' '}
        from {props.receipt.from}
        <Show when={props.receipt.layout}>
          , layout {props.receipt.layout} version {props.receipt.layoutVersion}
        </Show>
        <Show when={props.receipt.firstEpochMs !== null}>
          , readings {formatShortInstant(props.receipt.firstEpochMs ?? 0, props.zone)} to{' '}
          {formatShortInstant(props.receipt.lastEpochMs ?? 0, props.zone)}
        </Show>
        . <small class="hash">SHA-256 {props.receipt.sha256.slice(0, 16)}…</small>
      </p>
      <Show when={props.receipt.quarantined > 0 || props.receipt.outcome !== 'taken'}>
        <div class="buttons">
          <Show when={props.receipt.quarantined > 0}>
            <button type="button" onClick={() => props.showQuarantine()}>
              Show quarantine
            </button>
          </Show>
          <WhenAllowed to="add">
            <button type="button" onClick={() => props.retry()}>
              Try again
            </button>
          </WhenAllowed>
        </div>
      </Show>
    </article>
  )
}

const outcomeNames: Readonly<Record<Receipt['outcome'], string>> = {
  taken: 'Taken in whole',
  'taken-in-part': 'Taken in part',
  refused: 'Refused, kept',
}
