import { For, Show } from 'solid-js'
import type { Evidence, EvidencePicture } from '#domain/review/evidence.ts'
import { changeText, decibansText } from '#domain/review/wording.ts'

const standing = { for: 'for', against: 'against', missing: 'missing' } as const

/** Evidence about one cause, the strongest first; each line with its weight and the picture that shows it. */
export function EvidenceLines(props: {
  evidence: readonly Evidence[]
  shown: EvidencePicture | null
  show: (picture: EvidencePicture | null) => void
}) {
  return (
    <Show
      when={props.evidence.length > 0}
      fallback={<p class="review-none">Nothing that was looked at tells for or against it.</p>}
    >
      <table class="plain">
        <thead>
          <tr>
            <th scope="col">Stands</th>
            <th scope="col">Weight</th>
            <th scope="col">What was found</th>
            <th scope="col">Picture</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.evidence}>
            {(one) => (
              <tr classList={{ [`stands-${one.stands}`]: true }}>
                <th scope="row">{standing[one.stands]}</th>
                <td>{one.stands === 'missing' ? '–' : decibansText(one.decibans)}</td>
                <td>
                  {one.sentence}
                  <Show when={intervalText(one)}>{(text) => <small> {text()}</small>}</Show>
                </td>
                <td>
                  <Show when={one.picture}>
                    {(picture) => (
                      <button
                        type="button"
                        aria-pressed={props.shown === picture()}
                        aria-label={`Show the readings: ${one.sentence}`}
                        onClick={() => props.show(props.shown === picture() ? null : picture())}
                      >
                        Show
                      </button>
                    )}
                  </Show>
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </Show>
  )
}

function intervalText({ figure }: Evidence): string | null {
  if (!figure || figure.low === null || figure.high === null) return null
  return `Difference between them, 95 %: ${changeText(figure.low, '')} to ${changeText(figure.high, figure.unit)}.`
}
