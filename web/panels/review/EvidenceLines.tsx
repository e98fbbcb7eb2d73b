import { For, Show } from 'solid-js'
import type { Evidence, EvidencePicture, HistoryPicture } from '#domain/review/evidence.ts'
import { decibansText } from '#domain/review/wording.ts'
import { openNetworkPage } from '../../state/network-page.ts'
import { openSheet } from '../../state/sheet.ts'
import { showLogger } from '../network/show-logger.ts'

const standing = { for: 'for', against: 'against', missing: 'missing' } as const

/** Evidence about one cause, the strongest first; each line with its weight and the picture that shows it. */
export function EvidenceLines(props: {
  evidence: readonly Evidence[]
  shown: HistoryPicture | null
  show: (picture: HistoryPicture | null) => void
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
                <td>{one.sentence}</td>
                <td>
                  <Show when={one.picture}>
                    {(picture) => (
                      <PictureButton
                        picture={picture()}
                        sentence={one.sentence}
                        shown={props.shown}
                        show={props.show}
                      />
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

/** Readings are drawn below their cause; how a logger does among the others stands on a page of its own. */
function PictureButton(props: {
  picture: EvidencePicture
  sentence: string
  shown: HistoryPicture | null
  show: (picture: HistoryPicture | null) => void
}) {
  // Which kind a line's picture is never changes.
  const picture = props.picture
  return picture.kind === 'history' ? (
    <button
      type="button"
      aria-pressed={props.shown === picture}
      aria-label={`Show the readings: ${props.sentence}`}
      onClick={() => props.show(props.shown === picture ? null : picture)}
    >
      Show
    </button>
  ) : (
    <button
      type="button"
      aria-label={`Show ${picture.logger} in the network: ${props.sentence}`}
      onClick={() => openInNetwork(picture.logger)}
    >
      Network
    </button>
  )
}

function openInNetwork(logger: string): void {
  showLogger(logger)
  openNetworkPage('condition')
  openSheet('network')
}
