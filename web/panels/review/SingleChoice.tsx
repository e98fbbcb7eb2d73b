import { For, Show } from 'solid-js'
import { mostOdd } from '#domain/review/odd-reading.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { amountText } from '#domain/review/wording.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'

const mostOffered = 12

/** Which reading is asked about by itself: one that is dragged over in the drawing, or one of those that stand off most. */
export function SingleChoice(props: {
  reviewed: ReviewCase
  chosenEpochMs: number | null
  choosing: boolean
  setChoosing: (choosing: boolean) => void
  choose: (atEpochMs: number | null) => void
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const odd = () => mostOdd(props.reviewed.subject, props.reviewed.resolution ?? 0, mostOffered)
  const offered = () => {
    const chosen = props.chosenEpochMs
    const listed = odd().map(({ atEpochMs, value, sigmas }) => ({ atEpochMs, value, sigmas }))
    const at = chosen === null ? -1 : props.reviewed.subject.atEpochMs.indexOf(chosen)
    return chosen === null || at < 0 || listed.some(({ atEpochMs }) => atEpochMs === chosen)
      ? listed
      : [{ atEpochMs: chosen, value: props.reviewed.subject.values[at] as number, sigmas: null }, ...listed]
  }
  return (
    <fieldset class="chips review-single" aria-label="One reading by itself">
      <label>
        One reading{' '}
        <select
          value={props.chosenEpochMs ?? ''}
          onInput={(event) =>
            props.choose(event.currentTarget.value === '' ? null : Number(event.currentTarget.value))
          }
        >
          <option value="">none asked about</option>
          <For each={offered()}>
            {(one) => (
              <option value={one.atEpochMs} selected={one.atEpochMs === props.chosenEpochMs}>
                {formatInstant(one.atEpochMs, zone())}: {amountText(one.value, props.reviewed.subject.unit)}
                {one.sigmas === null ? '' : `, ${one.sigmas.toFixed(0)} times the scatter off`}
              </option>
            )}
          </For>
        </select>
      </label>
      <button
        type="button"
        aria-pressed={props.choosing}
        title="Drag over the drawing: the reading within that stands off most is chosen"
        onClick={() => props.setChoosing(!props.choosing)}
      >
        Drag over a reading
      </button>
      <Show when={odd().length === 0}>
        <small>
          {props.reviewed.subject.values.length === 0
            ? 'There is no reading in this stretch to ask about.'
            : 'No reading stands more than five times the scatter off; any may be asked about.'}
        </small>
      </Show>
    </fieldset>
  )
}
