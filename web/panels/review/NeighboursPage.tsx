import { createMemo, For, onMount, Show } from 'solid-js'
import { placesOf } from '#domain/review/case/places-of.ts'
import { neighbourRows } from '../../derived/review/neighbour-rows.ts'
import { lonelySentence } from '../../derived/review/neighbours-found.ts'
import { lookAt } from '../../state/map-view.ts'
import {
  neighboursFound,
  neighboursTrouble,
  neighboursWaiting,
  residualsFound,
} from '../../state/neighbours-shown.ts'
import { isLayerShown, toggleLayer } from '../../state/plan-layers.ts'
import { reviewedSeries } from '../../state/reviewed-series.ts'
import { selectPoint } from '../../state/selection.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { NeighbourKey } from './NeighbourKey.tsx'
import { ResidualTable } from './ResidualTable.tsx'
import { ReviewAsked } from './ReviewAsked.tsx'

/** What a series was held against, on the plan and as the table that stands for it. */
export function NeighboursPage() {
  onMount(() => {
    if (!isLayerShown('neighbours')) toggleLayer('neighbours')
  })
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const rows = createMemo(() => {
    const found = neighboursFound()
    return found ? neighbourRows(found, residualsFound(), siteLookup().pointById) : []
  })
  return (
    <div class="review">
      <Show
        when={reviewedSeries()}
        fallback={<p class="waiting">Select a point whose neighbours are to be looked at.</p>}
      >
        <ReviewAsked />
        <fieldset class="chips" aria-label="On the plan">
          <button
            type="button"
            aria-pressed={isLayerShown('neighbours')}
            onClick={() => toggleLayer('neighbours')}
          >
            Neighbours on the plan
          </button>
          <button type="button" onClick={lookCloser}>
            Look closer
          </button>
        </fieldset>
        <Show when={!isLayerShown('neighbours')}>
          <p class="waiting">They are worked out while they are shown on the plan.</p>
        </Show>
        <Show when={neighboursWaiting()}>{(sentence) => <p class="waiting">{sentence()}</p>}</Show>
        <Show when={neighboursTrouble()}>{(sentence) => <p class="review-finding">{sentence()}</p>}</Show>
        <Show when={neighboursFound()}>
          {(found) => (
            <>
              <p class="review-known">
                {formatShortInstant(found().fromEpochMs, zone())} to{' '}
                {formatShortInstant(found().asOfEpochMs, zone())}, as it was known then.
              </p>
              <For each={found().remarks}>{(remark) => <p class="waiting">{remark}</p>}</For>
              <Show when={lonelySentence(found())}>
                {(sentence) => <p class="review-finding">{sentence()}</p>}
              </Show>
              <Show when={rows().length > 0}>
                <section class="scroll-across" aria-label="Neighbours" tabindex="0">
                  <table class="plain neighbours">
                    <caption>Neighbours of {found().point}</caption>
                    <thead>
                      <tr>
                        <th scope="col">Neighbour</th>
                        <th scope="col">Stands</th>
                        <th scope="col">Away, layer</th>
                        <th scope="col">Fitted change, 95 %</th>
                        <th scope="col">{found().point} less it, 95 %</th>
                        <th scope="col">Goes with it, 95 %</th>
                        <th scope="col">Lag, 95 %</th>
                        <th scope="col">Residual, {residualUnit()}</th>
                        <th scope="col">Over its error</th>
                      </tr>
                    </thead>
                    <tbody>
                      <For each={rows()}>
                        {(row) => (
                          <tr title={row.sentence}>
                            <th scope="row">
                              <button type="button" onClick={() => selectPoint(row.point)}>
                                {row.point}
                              </button>
                              <small> {row.what.toLowerCase()}</small>
                            </th>
                            <td>
                              <b class="neighbour-sign" aria-hidden="true">
                                {row.sign}
                              </b>{' '}
                              {row.stands}
                            </td>
                            <td>
                              {row.distance}
                              <small>{row.layer === '–' ? '' : ` ${row.layer}`}</small>
                            </td>
                            <td>{row.change}</td>
                            <td>{row.difference}</td>
                            <td>{row.correlation}</td>
                            <td>{row.lag}</td>
                            <td>{row.residual}</td>
                            <td>{row.standardised}</td>
                          </tr>
                        )}
                      </For>
                    </tbody>
                  </table>
                </section>
                <ul class="neighbour-sentences">
                  <For each={rows()}>{(row) => <li>{row.sentence}</li>}</For>
                </ul>
              </Show>
              <ResidualTable point={found().point} />
              <details class="review-rules">
                <summary>What signs and figures mean</summary>
                <NeighbourKey />
                <p class="key-note">
                  Fitted change: size of the step or ramp that runs best through all its readings; where none
                  is told from chance, of one with the course of the point reviewed, or of a steady one where
                  that shows none either. Compare takes the mean of the last values less that of the first, so
                  the two differ. A neighbour moves with it where both changed beyond chance, the same way and
                  within three weeks of each other. No change told is no sign of standing still: its interval
                  says how much may be hidden, and “less it” how far the two parted. “Goes with it” is the
                  correlation of changes over a week, its interval of the pairs that count where both hang
                  together in time (Bartlett 1946; Pyper and Peterman 1998); the lag is by how much it comes
                  after the one reviewed.
                </p>
              </details>
            </>
          )}
        </Show>
      </Show>
    </div>
  )
}

/** The plan around the point reviewed, so near that what stands beside it is told apart. */
function lookCloser(): void {
  const [document, grid] = [siteDocument(), siteGrid()]
  const place = document && placesOf(document).get(reviewedSeries()?.point ?? '')
  if (!grid || !place) return
  const [longitude, latitude] = grid.toLngLat([place.eastingMetres, place.northingMetres])
  lookAt({ longitude, latitude, zoom: 19.6, bearingDegrees: 0 })
}

function residualUnit(): string {
  const found = residualsFound()
  return found?.ok ? found.residuals.unit : '–'
}
