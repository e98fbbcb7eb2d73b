import { For, Show } from 'solid-js'
import { plainNumber, signedNumber } from '../../derived/review/interval-text.ts'
import { type ResidualsFound, residualOf } from '../../derived/review/neighbours-found.ts'
import { residualsFound } from '../../state/neighbours-shown.ts'
import { selectPoint } from '../../state/selection.ts'

type Known = Extract<ResidualsFound, { readonly ok: true }>

/** Every point left out of its surface in turn: the rings of the plan as a table, the one reviewed in words first. */
export function ResidualTable(props: { point: string }) {
  const known = (): Known | null => {
    const found = residualsFound()
    return found?.ok ? found : null
  }
  return (
    <Show when={known()} fallback={<Refused found={residualsFound()} />}>
      {(found) => (
        <section aria-label="Residuals">
          <p>{ownSentence(found(), props.point)}</p>
          <details>
            <summary>
              {found().residuals.points.length} points left out of the surface in turn, as a table
            </summary>
            <table class="plain">
              <caption>
                {found().what}, {found().residuals.unit}
              </caption>
              <thead>
                <tr>
                  <th scope="col">Point</th>
                  <th scope="col">Read</th>
                  <th scope="col">All others say</th>
                  <th scope="col">Residual</th>
                  <th scope="col">Standard error</th>
                  <th scope="col">In standard errors</th>
                </tr>
              </thead>
              <tbody>
                <For each={found().residuals.points}>
                  {(one) => (
                    <tr classList={{ 'stands-for': one.ids.includes(props.point) }}>
                      <th scope="row">
                        <button type="button" onClick={() => selectPoint(one.ids[0] as string)}>
                          {one.ids.join(', ')}
                        </button>
                      </th>
                      <td>{plainNumber(one.observed)}</td>
                      <td>{plainNumber(one.estimate)}</td>
                      <td>{signedNumber(one.residual, 2)}</td>
                      <td>{plainNumber(one.standardError, 2)}</td>
                      <td>{signedNumber(one.standardised, 2)}</td>
                    </tr>
                  )}
                </For>
              </tbody>
            </table>
            <For each={found().residuals.sentences}>{(sentence) => <p class="key-note">{sentence}</p>}</For>
            <Show when={found().residuals.pointsLeftOut.length > 0}>
              <p class="key-note">
                Without a residual:{' '}
                {found()
                  .residuals.pointsLeftOut.map(({ id, reason }) => `${id} (${reason})`)
                  .join(', ')}
                .
              </p>
            </Show>
          </details>
        </section>
      )}
    </Show>
  )
}

function Refused(props: { found: ResidualsFound | null }) {
  return (
    <Show when={props.found && !props.found.ok && props.found.sentence}>
      {(sentence) => <p class="review-known">No residuals: {sentence()}</p>}
    </Show>
  )
}

function ownSentence(found: Known, point: string): string {
  const own = residualOf(found, point)
  const { unit } = found.residuals
  if (!own) return `${point} has no residual: it was not used for the surface.`
  const far = Math.abs(own.standardised)
  const said =
    far < 2
      ? 'no more than the ground between points and its own error may do'
      : far < 3
        ? 'more than is usual for one of twenty'
        : 'far more than the ground between points and its own error commonly do; a local movement shows like this as well as a fault'
  return `Left out of the surface, ${own.ids.join(' and ')} reads ${signedNumber(own.residual, 2)} ${unit} from what all others say, ${plainNumber(far, 2)} standard errors: ${said}.`
}
