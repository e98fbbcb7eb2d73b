import { For } from 'solid-js'
import type { ComparedSeries } from '#domain/review/compare-series.ts'
import { comparedRows } from '../../derived/review/compared-rows.ts'

/** What each series of a comparison did, and how it goes with the first. */
export function ComparedTable(props: { rows: readonly ComparedSeries[] }) {
  return (
    <>
      <section class="scroll-across" aria-label="Statistics" tabindex="0">
        <table class="plain neighbours">
          <caption>Over the stretch, each with its 95 % interval</caption>
          <thead>
            <tr>
              <th scope="col">Series</th>
              <th scope="col">Last values less first</th>
              <th scope="col">A week</th>
              <th scope="col">Correlation</th>
              <th scope="col">Of ranks</th>
              <th scope="col">Comes after it by</th>
            </tr>
          </thead>
          <tbody>
            <For each={comparedRows(props.rows)}>
              {(row) => (
                <tr>
                  <th scope="row">
                    {row.name} <small>{row.what.toLowerCase()}</small>
                  </th>
                  <td>{row.change}</td>
                  <td>{row.rate}</td>
                  <td>{row.correlation}</td>
                  <td>{row.rank}</td>
                  <td>{row.lag}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
      <details class="review-rules">
        <summary>How this is worked out</summary>
        <p class="key-note">
          Last values less first: mean of the last eighth of the values by the day, seven at most, less that
          of the first eighth, whatever lies between. The fitted change of Neighbours is that of a step or
          ramp through all of them, so the two differ. Correlation (Pearson, and Spearman of ranks): of
          changes over the length chosen, on the finest step that both are read for, so that levels and slow
          drifts mostly cancel; the interval counts only so many pairs as are independent where both hang
          together in time (Bartlett 1946; Pyper and Peterman 1998; Fisher's z). Lag: where the
          cross-correlation is greatest, with all lags around it that are not told from it. A correlation is
          not a cause.
        </p>
      </details>
    </>
  )
}
