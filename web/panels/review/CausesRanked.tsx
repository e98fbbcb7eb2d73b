import { createSignal, For, Show } from 'solid-js'
import { type Cause, causeMeans } from '#domain/review/cause.ts'
import type { HistoryPicture } from '#domain/review/evidence.ts'
import type { EvidenceTable } from '#domain/review/rank-causes.ts'
import { decibansText } from '#domain/review/wording.ts'
import { reviewedSeries } from '../../state/reviewed-series.ts'
import { sync } from '../../ui/sync.ts'
import { EvidenceLines } from './EvidenceLines.tsx'
import { EvidencePictureShown } from './EvidencePictureShown.tsx'

/** Every cause with its evidence, the likeliest first, and the readings behind the line that was asked for. */
export function CausesRanked(props: { table: EvidenceTable }) {
  // Two causes may share a picture: it is shown below the one whose line was pressed.
  const [shown, setShown] = createSignal<{ readonly cause: Cause; readonly picture: HistoryPicture } | null>(
    null,
  )
  // A function: a condition written at the attribute makes a memo at each read, and lines read it as they are pressed.
  const shownOf = (cause: Cause): HistoryPicture | null => {
    const now = shown()
    return now?.cause === cause ? now.picture : null
  }
  sync(
    () => reviewedSeries()?.id,
    () => setShown(null),
  )
  return (
    <For each={props.table.ranked}>
      {(ranked) => (
        <section class="review-cause" aria-label={ranked.cause}>
          <h3>
            {ranked.cause} <small>{decibansText(ranked.decibans)}</small>
          </h3>
          <p class="review-means">{causeMeans[ranked.cause]}.</p>
          <EvidenceLines
            evidence={ranked.evidence}
            show={(picture) => setShown(picture && { cause: ranked.cause, picture })}
            shown={shownOf(ranked.cause)}
          />
          <Show when={shownOf(ranked.cause)} keyed>
            {(picture) => <EvidencePictureShown picture={picture} leave={() => setShown(null)} />}
          </Show>
        </section>
      )}
    </For>
  )
}
