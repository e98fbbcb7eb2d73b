import { For, Show } from 'solid-js'
import { levelWords } from '#domain/levels/level-words.ts'
import type { LevelCompared, LevelFate, LevelsCompared } from '#domain/what-if/compare-levels.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { episodesText, fateSentence } from './what-if-sentences.ts'

/** Which levels would have been reached, when, and which not any more, as they are judged: sentences, then the table. */
export function LevelFates(props: { compared: LevelsCompared; series: string; zone: string }) {
  const other = () => props.compared.levels.filter(({ fate }) => told.has(fate))
  /** Of many points those alone that something becomes of, and what is looked at. */
  const listed = () =>
    props.compared.levels.filter(({ level, fate }) => told.has(fate) || level.series === props.series)
  const nameOf = ({ level }: LevelCompared) =>
    siteDocument()?.facts.levelNames[level.level - 1] ?? `Level ${level.level}`
  const words = ({ level }: LevelCompared) =>
    levelWords(level, siteLookup().seriesById.get(level.series)?.unit ?? '', (at) =>
      formatShortInstant(at, props.zone),
    ).reached
  return (
    <section aria-label="Levels" class="what-if-levels">
      <h3>Levels</h3>
      <Show
        when={props.compared.levels.length > 0}
        fallback={<p>No level on what the sandbox touches can be judged here.</p>}
      >
        <Show
          when={other().length > 0}
          fallback={<p>Every level is reached, or not, as it is officially.</p>}
        >
          <ul>
            <For each={other()}>{(one) => <li>{fateSentence(one, nameOf(one), props.zone)}</li>}</For>
          </ul>
        </Show>
        <section class="scroll-across" aria-label="Levels, scrolls sideways" tabindex="0">
          <table class="plain">
            <caption>As levels are judged: how long they must stand, and when they are left again</caption>
            <thead>
              <tr>
                <th scope="col">Level</th>
                <th scope="col">Reached at</th>
                <th scope="col">Officially</th>
                <th scope="col">In the sandbox</th>
                <th scope="col">So</th>
              </tr>
            </thead>
            <tbody>
              <For each={listed()}>
                {(one) => (
                  <tr classList={{ 'what-if-other': told.has(one.fate) }}>
                    <th scope="row">
                      {nameOf(one)} <small>{one.level.id}</small>
                    </th>
                    <td>{words(one)}</td>
                    <td>{episodesText(one.official, props.zone)}</td>
                    <td>{episodesText(one.sandbox, props.zone)}</td>
                    <td>{fateNames[one.fate]}</td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </section>
      </Show>
      <Show when={props.compared.levels.length > listed().length}>
        <p>
          {props.compared.levels.length - listed().length} further levels are reached, or not, as they are
          officially.
        </p>
      </Show>
      <For each={props.compared.notJudged}>
        {({ level, reason }) => (
          <p class="waiting">
            {level.id} is not judged here: {reason}.
          </p>
        )}
      </For>
    </section>
  )
}

const told: ReadonlySet<LevelFate> = new Set(['now-reached', 'no-more', 'otherwise'])

const fateNames: Readonly<Record<LevelFate, string>> = {
  'now-reached': 'would be reached',
  'no-more': 'would not be reached',
  otherwise: 'at other times',
  'as-before': 'as officially',
  never: 'not reached',
}
