import { createSignal, For, Show } from 'solid-js'
import type { LevelLineList, LevelLineRecord } from '#contract/level-lines.ts'
import { askServer, sentenceOf } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatValue } from '../ui/format-value.ts'

/** The level lines of the file that a level came from: asked for when somebody opens them. */
export function LevelLines(props: { sha256: string; point: string }) {
  const [lines, setLines] = createSignal<readonly LevelLineRecord[] | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ask = (open: boolean) => {
    const site = siteDocument()?.facts.id
    if (!open || lines() !== null || site === undefined) return
    askServer<LevelLineList>(sitePath(site, `/level-lines?sha256=${props.sha256}`)).then(
      (answer) => setLines(answer.lines),
      (cause) => setTrouble(sentenceOf(cause)),
    )
  }
  const own = () => (lines() ?? []).filter(({ setups }) => setups.some(({ ahead }) => ahead === props.point))
  return (
    <details class="record-more" onToggle={(event) => ask(event.currentTarget.open)}>
      <summary>The level line</summary>
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <For each={own()}>{(line) => <LineTable line={line} />}</For>
    </details>
  )
}

function LineTable(props: { line: LevelLineRecord }) {
  return (
    <>
      <p class={props.line.taken ? '' : 'trouble'}>{props.line.sentence}</p>
      <section class="scroll-across" aria-label="Setups, scrolls sideways" tabindex="0">
        <table class="plain">
          <caption>
            Level line {props.line.line}, m. Uncertainty of a level against the benchmarks, with the closure
            allowed taken as two standard deviations of the whole line.
          </caption>
          <thead>
            <tr>
              <th scope="col">Setup</th>
              <th scope="col">Behind</th>
              <th scope="col">Ahead</th>
              <th scope="col">Backsight</th>
              <th scope="col">Foresight</th>
              <th scope="col">Sights</th>
              <th scope="col">As read</th>
              <th scope="col">Adjusted</th>
              <th scope="col">±, mm</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.line.setups}>
              {(one) => (
                <tr>
                  <th scope="row">{one.setup}</th>
                  <td>{one.behind}</td>
                  <td>{one.ahead}</td>
                  <td>{formatValue(one.backsightMetres, 4)}</td>
                  <td>{formatValue(one.foresightMetres, 4)}</td>
                  <td>{formatValue(one.distanceMetres, 1)}</td>
                  <td>{formatValue(one.reducedMetres, 4)}</td>
                  <td>{formatValue(one.adjustedMetres, 5)}</td>
                  <td>{formatValue(one.standardUncertaintyMm, 2)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
    </>
  )
}
