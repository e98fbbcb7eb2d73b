import { createSignal, For, Show } from 'solid-js'
import { siteAlignments } from '../state/alignments.ts'
import { drawSection } from '../state/section-line.ts'
import { alignmentSentence, sectionOnAlignment } from './alignment-sentences.ts'

/** A section across an alignment at a chainage, or along it between two. */
export function SectionByChainage() {
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const cut = (event: SubmitEvent) => {
    event.preventDefault()
    const form = new FormData(event.currentTarget as HTMLFormElement)
    const numberOf = (name: string) => {
      const text = String(form.get(name) ?? '').trim()
      return text === '' ? Number.NaN : Number(text)
    }
    const alignment = siteAlignments().find(({ id }) => id === form.get('alignment'))
    const [from, until, reachMetres] = [numberOf('chainage'), numberOf('until'), numberOf('reach')]
    if (!alignment) return
    const corners = Number.isNaN(until)
      ? sectionOnAlignment(alignment, { across: from, reachMetres })
      : sectionOnAlignment(alignment, { from, until })
    setTrouble(
      corners
        ? null
        : `Give one chainage and how far to go to either side, or two chainages. ${alignmentSentence(alignment)}`,
    )
    if (corners)
      drawSection(corners.map(([eastingMetres, northingMetres]) => ({ eastingMetres, northingMetres })))
  }
  return (
    <Show when={siteAlignments().length > 0}>
      <form onSubmit={cut} class="section-between" aria-label="Section by chainage">
        <label>
          Alignment{' '}
          <select name="alignment">
            <For each={siteAlignments()}>{({ id, name }) => <option value={id}>{name}</option>}</For>
          </select>
        </label>
        <label>
          at chainage <input name="chainage" inputmode="decimal" autocomplete="off" size="8" />
        </label>
        <label>
          across, m to either side <input name="reach" inputmode="decimal" value="30" size="5" />
        </label>
        <label>
          or along it to chainage <input name="until" inputmode="decimal" autocomplete="off" size="8" />
        </label>
        <button type="submit">Cut there</button>
      </form>
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
    </Show>
  )
}
