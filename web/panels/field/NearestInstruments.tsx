import { createMemo, createSignal, For, Show } from 'solid-js'
import { nearestInstruments } from '../../derived/nearest-instruments.ts'
import { distanceText, ownPosition } from '../../state/own-position.ts'
import { selectInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { announce } from '../../ui/announce.ts'
import { OpenedInstrument } from './OpenedInstrument.tsx'

/** The instruments next to where one stands; the first is one press away. */
export function NearestInstruments() {
  const [opened, setOpened] = createSignal<string | null>(null)
  const near = createMemo(() => {
    const [document, from] = [siteDocument(), ownPosition()]
    return document && from ? nearestInstruments(document, from, siteNowEpochMs(), 4) : []
  })
  const open = (instrument: string) => {
    selectInstrument(instrument)
    setOpened(instrument)
    announce(`${instrument} is open`)
  }
  // Within the accuracy of a position another one may be the nearest.
  const isUnsure = () => {
    const [first, second] = near()
    const position = ownPosition()
    if (position?.from !== 'device') return false
    const accuracy = position.accuracyMetres
    return first !== undefined && second !== undefined && second.awayMetres - first.awayMetres < accuracy
  }
  return (
    <Show when={near()[0]}>
      {(first) => (
        <div class="field-near">
          <button type="button" class="field-nearest" onClick={() => open(first().instrument)}>
            Nearest: {first().instrument}, {distanceText(first().awayMetres)}
          </button>
          <For each={near().slice(1)}>
            {({ instrument, awayMetres }) => (
              <button type="button" onClick={() => open(instrument)}>
                {instrument}, {distanceText(awayMetres)}
              </button>
            )}
          </For>
          <Show when={isUnsure()}>
            <p>
              The position is known to {Math.ceil(ownPosition()?.accuracyMetres ?? 0)} m only: another of
              these may be nearer. Look at the label.
            </p>
          </Show>
          <Show when={opened()}>{(instrument) => <OpenedInstrument instrument={instrument()} />}</Show>
        </div>
      )}
    </Show>
  )
}
