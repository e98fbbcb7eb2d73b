import { Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { createAskedReading } from './create-asked-reading.ts'
import type { createReview } from './create-review.ts'
import { KnownHistory } from './KnownHistory.tsx'
import { SingleChoice } from './SingleChoice.tsx'

/** The readings as they had been received, and the choice of one of them to be asked about by itself. */
export function ReadingsKnown(props: {
  series: Series
  review: ReturnType<typeof createReview>
  asked: ReturnType<typeof createAskedReading>
}) {
  const framed = () => {
    const chosen = props.asked.single()
    if (!chosen) return null
    const halfMs = props.series.intervalMinutes * 30_000
    return { fromEpochMs: chosen.atEpochMs - halfMs, untilEpochMs: chosen.atEpochMs + halfMs }
  }
  return (
    <Show when={props.review.stretch()}>
      {(over) => (
        <details class="record-more" open>
          <summary>Readings as they had been received at the clock</summary>
          <KnownHistory
            series={props.series}
            stretch={over()}
            choosing={props.asked.choosing()}
            chosen={(stretch) => props.asked.chooseWithin(props.review.reviewed(), stretch)}
            framed={framed()}
          />
          <Show when={props.review.reviewed()}>
            {(reviewed) => (
              <SingleChoice
                reviewed={reviewed()}
                chosenEpochMs={props.asked.single()?.atEpochMs ?? null}
                choosing={props.asked.choosing()}
                setChoosing={props.asked.setChoosing}
                choose={props.asked.choose}
              />
            )}
          </Show>
          <Show when={props.asked.trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
        </details>
      )}
    </Show>
  )
}
