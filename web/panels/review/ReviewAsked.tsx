import { For, Show } from 'solid-js'
import {
  chooseReviewDays,
  chooseReviewedSeries,
  reviewDays,
  reviewedSeries,
  reviewStretches,
} from '../../state/reviewed-series.ts'
import { selectedSeries } from '../../state/selection.ts'
import { measureNames } from '../../ui/kind-names.ts'

/** Which series is reviewed, and how many days before the clock are looked at. */
export function ReviewAsked(props: { daysOnly?: boolean }) {
  return (
    <div class="review-asked">
      <Show when={!props.daysOnly && reviewedSeries()}>
        {(subject) => (
          <label>
            Readings of
            <select value={subject().id} onInput={(event) => chooseReviewedSeries(event.currentTarget.value)}>
              <For each={selectedSeries()}>
                {(one) => (
                  <option value={one.id} selected={one.id === subject().id}>
                    {one.point}, {measureNames[one.measure].toLowerCase()}
                  </option>
                )}
              </For>
            </select>
          </label>
        )}
      </Show>
      <fieldset class="chips" aria-label="Days before the clock">
        <For each={reviewStretches}>
          {(one) => (
            <button type="button" aria-pressed={reviewDays() === one} onClick={() => chooseReviewDays(one)}>
              {one} days
            </button>
          )}
        </For>
      </fieldset>
    </div>
  )
}
