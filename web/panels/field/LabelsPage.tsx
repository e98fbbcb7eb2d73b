import encodeQR from 'qr'
import { createMemo, createSignal, For } from 'solid-js'
import { Portal } from 'solid-js/web'
import { labelText } from '../../derived/label-text.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { kindNames } from '../../ui/kind-names.ts'

/** Labels to be printed and fixed to instruments; scanning one opens the instrument. */
export function LabelsPage() {
  const [which, setWhich] = createSignal('selected')
  const inUse = () =>
    (siteDocument()?.instruments ?? []).filter(({ retiredAtEpochMs }) => retiredAtEpochMs === null)
  const kinds = createMemo(() => [...new Set(inUse().map(({ kind }) => kind))])
  const chosen = createMemo(() => {
    const wanted = which()
    if (wanted === 'selected') return inUse().filter(({ id }) => id === selectedInstrument()?.id)
    return wanted === 'all' ? inUse() : inUse().filter(({ kind }) => kind === wanted)
  })
  const site = () => siteDocument()?.facts
  const code = (instrument: string) =>
    `data:image/svg+xml;charset=utf-8,${encodeURIComponent(encodeQR(labelText(location.origin, site()?.id ?? '', instrument), 'svg', { ecc: 'quartile', border: 4 }))}`
  const sheet = () => (
    <div class="label-sheet">
      <For each={chosen()}>
        {(instrument) => (
          <figure class="label">
            <img src={code(instrument.id)} alt={`Code that opens ${instrument.id}`} />
            <figcaption>
              <strong>{instrument.id}</strong>
              <span>{kindNames[instrument.kind]}</span>
              <span>
                {site()?.name}
                {site()?.invented ? ' · invented data' : ''}
              </span>
            </figcaption>
          </figure>
        )}
      </For>
    </div>
  )
  return (
    <section class="field-page" aria-label="Labels">
      <h2>Labels</h2>
      <label>
        Print labels of
        <select value={which()} onChange={(event) => setWhich(event.currentTarget.value)}>
          <option value="selected">the selected instrument</option>
          <option value="all">all instruments in use</option>
          <For each={kinds()}>{(kind) => <option value={kind}>{kindNames[kind]}, all</option>}</For>
        </select>
      </label>
      <p role="status">
        {chosen().length === 0
          ? 'Select an instrument on the plan, or choose a kind.'
          : `${chosen().length} labels.`}
      </p>
      <button type="button" disabled={chosen().length === 0} onClick={() => print()}>
        Print
      </button>
      {sheet()}
      <Portal>
        <div class="print-sheet" aria-hidden="true">
          {sheet()}
        </div>
      </Portal>
    </section>
  )
}
