import { createSignal, For, Show } from 'solid-js'
import {
  clearSection,
  drawingSection,
  drawSection,
  sectionLine,
  takeSectionTool,
} from '../state/section-line.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { SectionByChainage } from './SectionByChainage.tsx'

/** Ways to say where the section goes: tap it on the plan, between two measuring points, or by coordinates. */
export function SectionLineForm() {
  const [text, setText] = createSignal('')
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const use = () => {
    const read = readCorners(text())
    if (read.length < 2) {
      setTrouble('Write at least two corners as "easting northing; easting northing", in site grid metres.')
      return
    }
    setTrouble(null)
    drawSection(read)
  }
  const between = (event: SubmitEvent) => {
    event.preventDefault()
    const form = new FormData(event.currentTarget as HTMLFormElement)
    const ends = [form.get('from'), form.get('to')].flatMap(
      (id) => siteLookup().pointById.get(String(id)) ?? [],
    )
    if (ends.length === 2) drawSection(ends)
    else setTrouble('Choose two measuring points from the list.')
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
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
    </div>
  )
}

interface Corner {
  readonly eastingMetres: number
  readonly northingMetres: number
}

function readCorners(text: string): readonly Corner[] {
  return text.split(';').flatMap((corner) => {
    const [eastingMetres, northingMetres] = corner
      .trim()
      .split(/[\s,]+/)
      .map(Number)
    if (eastingMetres === undefined || northingMetres === undefined) return []
    return Number.isFinite(eastingMetres + northingMetres) ? { eastingMetres, northingMetres } : []
  })
}

const writeCorners = (corners: readonly Corner[]) =>
  corners.map((corner) => `${corner.eastingMetres} ${corner.northingMetres}`).join('; ')
