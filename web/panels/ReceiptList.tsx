import { createMemo, createSignal, For, type JSX, Show } from 'solid-js'
import type { Receipt } from '#contract/receipt.ts'
import { ReceiptCard } from './ReceiptCard.tsx'

/** So many at first: months of daily files are found by name, not by scrolling. */
const mostAtOnce = 40

/** Files taken in, newest first, with those that were not taken whole a tick away. `below`: what stands open beneath one. */
export function ReceiptList(props: {
  receipts: readonly Receipt[]
  zone: string
  showQuarantine: (batch: number) => void
  retry: (batch: number) => void
  below: (batch: number) => JSX.Element
}) {
  const [text, setText] = createSignal('')
  const [onlyLeft, setOnlyLeft] = createSignal(false)
  const [most, setMost] = createSignal(mostAtOnce)
  const left = createMemo(() => props.receipts.filter(leavesSomething))
  const found = createMemo(() => {
    const wanted = text().trim().toLowerCase()
    return (onlyLeft() ? left() : props.receipts).filter(({ fileName }) =>
      fileName.toLowerCase().includes(wanted),
    )
  })
  const more = () => Math.max(0, found().length - most())
  return (
    <>
      <h2>Files taken in</h2>
      <Show when={props.receipts.length > 0} fallback={<p class="waiting">None yet.</p>}>
        <div class="receipt-filters">
          <label>
            Find by name{' '}
            <input type="search" value={text()} onInput={(event) => setText(event.currentTarget.value)} />
          </label>
          <label>
            <input
              type="checkbox"
              checked={onlyLeft()}
              onChange={(event) => setOnlyLeft(event.currentTarget.checked)}
            />{' '}
            Only what was not taken whole ({left().length})
          </label>
        </div>
        <p role="status">
          {found().length === props.receipts.length
            ? `${found().length} files.`
            : `${found().length} of ${props.receipts.length} files.`}
        </p>
        <ul class="receipts">
          <For each={found().slice(0, most())}>
            {(receipt) => (
              <li>
                <ReceiptCard
                  receipt={receipt}
                  zone={props.zone}
                  showQuarantine={() => props.showQuarantine(receipt.batch)}
                  retry={() => props.retry(receipt.batch)}
                />
                {props.below(receipt.batch)}
              </li>
            )}
          </For>
        </ul>
        <Show when={more() > 0}>
          <button type="button" onClick={() => setMost((now) => now + mostAtOnce)}>
            Show {Math.min(mostAtOnce, more())} more of {found().length}
          </button>
        </Show>
      </Show>
    </>
  )
}

/** Something of the file is not among the readings: it was refused, set aside, or contradicts what was there. */
const leavesSomething = ({ outcome, quarantined, conflicting }: Receipt): boolean =>
  outcome !== 'taken' || quarantined > 0 || conflicting > 0
