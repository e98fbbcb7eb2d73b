import { For, Show } from 'solid-js'
import type { DutyStanding } from '#contract/duties-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { coverageSentence, initialsOf, personSentence } from './duty-sentences.ts'
import { dutyStrip, type StripBlock, stripDays } from './duty-strip.ts'

const mostHoles = 8

/** One duty: who is on, the coming week, what it leaves open, and when it goes further. */
export function DutyCard(props: {
  standing: DutyStanding
  atEpochMs: number
  coveredUntilEpochMs: number
  zone: string
}) {
  const levels = () => {
    const count = props.standing.levels
    return count === 0
      ? 'owns no level in force'
      : `owns ${count} ${count === 1 ? 'level' : 'levels'} in force`
  }
  const holes = () => props.standing.holes
  return (
    <section class="duty-section" aria-label={props.standing.duty}>
      <h2>
        {props.standing.duty} <small>{levels()}</small>
      </h2>
      <Show
        when={props.standing.now.length > 0}
        fallback={
          <p class="trouble" role="alert">
            Nobody is on now.
          </p>
        }
      >
        <ol class="duty-now">
          <For each={props.standing.now}>
            {(person) => (
              <li value={person.order}>
                <strong>{person.name}</strong> {personSentence(person, props.atEpochMs, props.zone)}
              </li>
            )}
          </For>
        </ol>
      </Show>
      <DutyWeek standing={props.standing} zone={props.zone} />
      <p classList={{ trouble: holes().length > 0 }}>
        {coverageSentence(props.standing, props.coveredUntilEpochMs, props.zone)}
      </p>
      <Show when={holes().length > 0}>
        <ul>
          <For each={holes().slice(0, mostHoles)}>{({ sentence }) => <li>{sentence}</li>}</For>
          <Show when={holes().length > mostHoles}>
            <li>and {holes().length - mostHoles} more.</li>
          </Show>
        </ul>
      </Show>
      <details>
        <summary>When it goes further</summary>
        <Show when={!props.standing.stepsWritten}>
          <p>No steps are written for this duty; then these hold:</p>
        </Show>
        <ol>
          <For each={props.standing.steps}>{(sentence) => <li>{sentence}</li>}</For>
        </ol>
      </details>
    </section>
  )
}

/** The coming week as a strip, a row an order, and the same as a table. */
function DutyWeek(props: { standing: DutyStanding; zone: string }) {
  const percent = (share: number) => `${100 * share}%`
  const rows = () => dutyStrip(props.standing)
  const place = ({ startShare, lengthShare }: StripBlock) => ({
    left: percent(startShare),
    width: percent(lengthShare),
  })
  return (
    <>
      <div class="duty-strip" aria-hidden="true">
        <div class="duty-days">
          <For each={stripDays(props.standing.week, props.zone)}>
            {({ startShare, name }) => <span style={{ left: percent(startShare) }}>{name}</span>}
          </For>
        </div>
        <For each={rows()}>
          {({ turns, holes }) => (
            <div class="duty-row">
              <For each={turns}>
                {(turn) => (
                  <span class="duty-turn" style={place(turn)} title={turn.name}>
                    {initialsOf(turn.name)}
                  </span>
                )}
              </For>
              <For each={holes}>
                {(hole) => <span class="duty-hole" style={place(hole)} title={hole.name} />}
              </For>
            </div>
          )}
        </For>
      </div>
      <details>
        <summary>The coming week as a table</summary>
        <table class="plain">
          <caption>
            Turns of {props.standing.duty}, site time; hatched in the strip is where nobody would be told
          </caption>
          <thead>
            <tr>
              <th scope="col">Order</th>
              <th scope="col">From</th>
              <th scope="col">Until</th>
              <th scope="col">Who</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.standing.week.turns}>
              {(turn) => (
                <tr>
                  <td>{turn.order}</td>
                  <td>{formatShortInstant(turn.fromEpochMs, props.zone)}</td>
                  <td>{formatShortInstant(turn.untilEpochMs, props.zone)}</td>
                  <td>{turn.name}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </details>
    </>
  )
}
