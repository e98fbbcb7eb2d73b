import { For, Show } from 'solid-js'
import type { GradientArrow, GradientArrows } from '#domain/ground/gradient-arrows.ts'
import { gradientNote } from '../../derived/gradient-note.ts'
import { decimalsFor, oneInText } from '../../derived/slope-text.ts'
import { formatValue } from '../../ui/format-value.ts'
import { PlainTable } from './PlainTable.tsx'

/** The arrows of the plan as numbers: where, how steep, which way, and how sure. */
export function GradientTable(props: { gradient: GradientArrows; drawnBy: string }) {
  const row = (arrow: GradientArrow): readonly string[] => {
    const { place, gradient, azimuthDegrees, standing } = arrow
    const [error, turn] = [arrow.gradientStandardError, arrow.azimuthStandardErrorDegrees]
    const digits = Math.min(6, decimalsFor(gradient) + 1)
    return [
      `E ${formatValue(place[0], 0)} N ${formatValue(place[1], 0)}`,
      formatValue(gradient, digits),
      oneInText(1000 * gradient),
      error === null ? 'not known' : formatValue(error, digits),
      standing === 'none' ? 'not told' : `${formatValue(azimuthDegrees, 0).padStart(3, '0')}°`,
      standing === 'none' ? '–' : turn === null ? 'not known' : `${formatValue(turn, 0)}°`,
    ]
  }
  return (
    <section class="ground-part" aria-label="Hydraulic gradient">
      <h2>Hydraulic gradient</h2>
      <For each={gradientNote(props)}>{(note) => <p>{note}</p>}</For>
      <Show when={props.gradient.arrows.length > 0}>
        <PlainTable
          caption="Arrows on the plan; bearings clockwise from grid north, the way in which the level falls"
          headings={['Place', 'Gradient', 'One in', 'Its standard error', 'Bearing', 'Its standard error']}
          rows={props.gradient.arrows.map(row)}
        />
      </Show>
    </section>
  )
}
