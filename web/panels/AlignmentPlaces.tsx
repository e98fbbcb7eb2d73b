import { For } from 'solid-js'
import type { PlacedPoint } from '#contract/site-document.ts'
import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import { siteAlignments } from '../state/alignments.ts'
import { alignmentSentence, placeSentence, stationTexts } from './alignment-sentences.ts'

/** Chainage and offset of measuring points along every alignment of the site: the first at once, all when opened. */
export function AlignmentPlaces(props: { points: readonly PlacedPoint[] }) {
  const stationOf = (alignment: WorksAlignment, point: PlacedPoint) =>
    alignment.stationOf([point.eastingMetres, point.northingMetres], { extended: true })
  return (
    <For each={props.points.length > 0 ? siteAlignments() : []}>
      {(alignment) => (
        <details class="record-more">
          <summary>
            <For each={props.points.slice(0, 1)}>
              {(point) => placeSentence(alignment.name, point.id, stationOf(alignment, point))}
            </For>
          </summary>
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
                    <For each={stationTexts(stationOf(alignment, point))}>{(text) => <td>{text}</td>}</For>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </details>
      )}
    </For>
  )
}
