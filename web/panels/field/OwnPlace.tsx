import { For, Show } from 'solid-js'
import {
  followPosition,
  ownPosition,
  positionSentence,
  positionStanding,
  standAt,
  stopFollowing,
} from '../../state/own-position.ts'
import { siteDocument } from '../../state/site-document.ts'

/** Where the person stands: from the device, or chosen by hand where it gives none (in a shaft, under a deck). */
export function OwnPlace() {
  return (
    <div class="field-place">
      <Show
        when={positionStanding() === 'off' || positionStanding() === 'refused'}
        fallback={
          <button type="button" onClick={stopFollowing}>
            Stop using my position
          </button>
        }
      >
        <button type="button" onClick={followPosition}>
          Use my position
        </button>
      </Show>
      <label>
        or I stand at{' '}
        <select
          value=""
          onChange={(event) => {
            if (event.currentTarget.value !== '') standAt(event.currentTarget.value)
          }}
        >
          <option value="">…</option>
          <For each={siteDocument()?.locations ?? []}>
            {(place) => <option value={place.id}>{place.id}</option>}
          </For>
        </select>
      </label>
      <p role="status">
        {positionSentence() ??
          (positionStanding() === 'asking'
            ? 'Waiting for the device’s position …'
            : positionStanding() === 'known'
              ? knownSentence(ownPosition()?.accuracyMetres ?? 0)
              : 'Position not used.')}
      </p>
    </div>
  )
}

/** Instruments stand nearer to one another than this: a position that is coarser does not tell them apart. */
const coarseMetres = 30

const knownSentence = (accuracyMetres: number): string => {
  const known = `Position known to ${Math.ceil(accuracyMetres)} m.`
  return accuracyMetres > coarseMetres
    ? `${known} That is too coarse to tell places apart: wait for a better one, or choose the place by hand.`
    : known
}
