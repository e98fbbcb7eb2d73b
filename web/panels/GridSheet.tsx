import { createSignal, For, Show } from 'solid-js'
import { gridBearing } from '#domain/geometry/ground-distance.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { formatValue } from '../ui/format-value.ts'
import { sync } from '../ui/sync.ts'
import { gridSentences, middleOfSite } from './grid-facts.ts'

/** How the site grid lies on the earth and on the ground, with the residuals of its control points. */
export function GridSheet(props: { open: boolean; closed: () => void }) {
  const mount = (dialog: HTMLDialogElement) =>
    sync(
      () => props.open,
      (open) => {
        if (open && !dialog.open) dialog.showModal()
        if (!open && dialog.open) dialog.close()
      },
    )
  const sentences = () => {
    const [document, grid] = [siteDocument(), siteGrid()]
    return document && grid ? gridSentences(document, grid) : ['The grid has not been opened yet.']
  }
  return (
    <dialog class="key-sheet" aria-label="Grid and ground" ref={mount} onClose={() => props.closed()}>
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <Show when={props.open}>
        <section>
          <h2>Grid and ground</h2>
          <For each={sentences()}>{(sentence) => <p>{sentence}</p>}</For>
        </section>
        <Show when={siteGrid()?.local}>
          {(fit) => (
            <table>
              <caption>Residuals of the control points, computed minus given</caption>
              <thead>
                <tr>
                  <th scope="col">Point</th>
                  <th scope="col">East, mm</th>
                  <th scope="col">North, mm</th>
                </tr>
              </thead>
              <tbody>
                <For each={fit().residuals}>
                  {(one) => (
                    <tr>
                      <th scope="row">{one.id}</th>
                      <td>{formatValue(one.eastMetres * 1000, 1)}</td>
                      <td>{formatValue(one.northMetres * 1000, 1)}</td>
                    </tr>
                  )}
                </For>
              </tbody>
            </table>
          )}
        </Show>
        <CompassBearing />
      </Show>
    </dialog>
  )
}

/** A bearing read with a compass, as one from grid north: what axisBearingDegrees holds. */
function CompassBearing() {
  const [magnetic, setMagnetic] = createSignal(Number.NaN)
  const [declination, setDeclination] = createSignal(Number.NaN)
  const bearing = () => {
    const [document, grid] = [siteDocument(), siteGrid()]
    const middle = document && middleOfSite(document)
    if (!document || !grid || !middle) return Number.NaN
    const { convergenceDegrees } = grid.factorsAt(middle, document.facts.groundLevelMetres)
    return gridBearing(magnetic(), declination(), convergenceDegrees)
  }
  return (
    <section>
      <h2>A bearing read with a compass</h2>
      <label>
        Compass, degrees{' '}
        <input type="number" step="any" onInput={(event) => setMagnetic(event.currentTarget.valueAsNumber)} />
      </label>
      <label>
        Declination here and today, east positive{' '}
        <input
          type="number"
          step="any"
          onInput={(event) => setDeclination(event.currentTarget.valueAsNumber)}
        />
      </label>
      <p aria-live="polite">
        {Number.isFinite(bearing())
          ? `From grid north: ${formatValue(bearing(), 2)}°`
          : 'Give both to have the bearing from grid north.'}
      </p>
    </section>
  )
}
