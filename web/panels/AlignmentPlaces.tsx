import { For } from 'solid-js'
import type { PlacedPoint } from '#contract/site-document.ts'
import { siteAlignments } from '../state/alignments.ts'
import { alignmentSentence, stationTexts } from './alignment-sentences.ts'

/** Chainage and offset of measuring points along every alignment of the site. */
export function AlignmentPlaces(props: { points: readonly PlacedPoint[] }) {
  return (
    <For each={siteAlignments()}>
      {(alignment) => (
        <table class="plain">
          <caption>{alignmentSentence(alignment)}</caption>
          <thead>
            <tr>
              <th scope="col">Point</th>
              <th scope="col">Chainage, m</th>
              <th scope="col">Offset, m</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.points}>
              {(point) => (
                <tr>
                  <th scope="row">{point.id}</th>
                  <For
                    each={stationTexts(
                      alignment.stationOf([point.eastingMetres, point.northingMetres], { extended: true }),
                    )}
                  >
                    {(text) => <td>{text}</td>}
                  </For>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      )}
    </For>
  )
}
