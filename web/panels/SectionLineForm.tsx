import { createSignal, For, Show } from 'solid-js'
import {
  clearSection,
  drawingSection,
  drawSection,
  type GridPoint,
  sectionLine,
  takeSectionTool,
} from '../state/section-line.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { readSectionCorners } from './read-corners.ts'
import { SectionByChainage } from './SectionByChainage.tsx'

/** Ways to say where the section goes: tap it on the plan, between two measuring points, or by coordinates. */
export function SectionLineForm() {
  const [text, setText] = createSignal('')
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const use = () => {
    const read = readSectionCorners(text())
    setTrouble(read.ok ? null : read.issues.map(({ message }) => message).join(' '))
    if (read.ok) drawSection(read.value)
  }
  const between = (event: SubmitEvent) => {
    event.preventDefault()
    const form = new FormData(event.currentTarget as HTMLFormElement)
    const ends = [form.get('from'), form.get('to')].flatMap(
      (id) => siteLookup().pointById.get(String(id)) ?? [],
    )
    const [from, to] = ends
    if (!from || !to) return void setTrouble('Choose two measuring points from the list.')
    if (from.eastingMetres === to.eastingMetres && from.northingMetres === to.northingMetres)
      return void setTrouble(
        `${from.id} and ${to.id} stand one above the other or are one: a line between them has no length. Choose two that stand apart.`,
      )
    setTrouble(null)
    drawSection(ends)
  }
  return (
    <div class="section-form">
      <div class="buttons">
        <button
          type="button"
          class="primary"
          aria-pressed={drawingSection()}
          onClick={() => takeSectionTool(!drawingSection())}
        >
          {drawingSection() ? 'Tapping on the plan …' : 'Draw a line on the plan'}
        </button>
        <Show when={sectionLine().length > 0}>
          <button type="button" onClick={clearSection}>
            Take the line away
          </button>
          <button type="button" onClick={() => print()}>
            Print
          </button>
        </Show>
      </div>
      <details>
        <summary>By points, chainage or coordinates</summary>
        <form onSubmit={between} class="section-between">
          <label>
            From <input name="from" list="section-points" autocomplete="off" />
          </label>
          <label>
            to <input name="to" list="section-points" autocomplete="off" />
          </label>
          <datalist id="section-points">
            <For each={siteDocument()?.points ?? []}>{(point) => <option value={point.id} />}</For>
          </datalist>
          <button type="submit">Through these</button>
        </form>
        <SectionByChainage />
        <label class="key-field">
          Corners, easting northing in metres
          <input
            value={text() || writeCorners(sectionLine())}
            placeholder="500000 309990; 500120 309990"
            onInput={(event) => setText(event.currentTarget.value)}
            onChange={use}
          />
        </label>
      </details>
      <div role="alert">
        <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      </div>
    </div>
  )
}

const writeCorners = (corners: readonly GridPoint[]) =>
  corners.map((corner) => `${corner.eastingMetres} ${corner.northingMetres}`).join('; ')
