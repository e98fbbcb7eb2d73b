import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { compareTables } from '#domain/review/compare-tables.ts'
import type { Oddity } from '#domain/review/oddity.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { decibansText } from '#domain/review/wording.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { knownStateWords } from '../known-state.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'
import { createReview, stretchAtClock } from './create-review.ts'

const choices = [6, 12, 24, 72, 168] as const

/** What would have been seen with some hours less data: evidence and levels now and then, beside each other. */
export function LessData(props: {
  series: Series
  days: number
  oddity: Oddity
  now: ReturnType<typeof createReview>
}) {
  const [hours, setHours] = createSignal<number>(choices[0])
  const stretch = () => stretchAtClock(props.days, hours())
  const earlier = createReview(
    () => props.series,
    stretch,
    () => props.oddity,
    createNetworkDocument(() => stretch()?.asOfEpochMs ?? null),
  )
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const both = createMemo(() => {
    const [now, then] = [props.now.table(), earlier.table()]
    const [caseNow, caseThen] = [props.now.reviewed(), earlier.reviewed()]
    if (!now || !then || !caseNow || !caseThen) return null
    return {
      now,
      then,
      compared: compareTables(now, then),
      states: [stateWords(props.series, caseNow), stateWords(props.series, caseThen)] as const,
      readings: caseNow.subject.values.length - countSince(caseThen, caseNow.fromEpochMs),
      thenEpochMs: caseThen.untilEpochMs,
    }
  })
  return (
    <section class="review-less" aria-label="With less data">
      <label>
        What would have been seen with{' '}
        <select value={hours()} onInput={(event) => setHours(Number(event.currentTarget.value))}>
          <For each={choices}>
            {(one) => <option value={one}>{one < 48 ? `${one} h` : `${one / 24} days`}</option>}
          </For>
        </select>{' '}
        less data
      </label>
      <Show when={both()} fallback={<p class="waiting">Weighing what was known then …</p>}>
        {(known) => (
          <>
            <p>
              At {formatInstant(known().thenEpochMs, zone())}{' '}
              {known().readings === 0 ? 'none' : known().readings} of the readings known now had not been
              received or not been taken.
            </p>
            <table class="plain">
              <thead>
                <tr>
                  <th scope="col">What</th>
                  <th scope="col">At the clock</th>
                  <th scope="col">Then</th>
                </tr>
              </thead>
              <tbody>
                <tr>
                  <th scope="row">Last reading and levels</th>
                  <td>{known().states[0]}</td>
                  <td>{known().states[1]}</td>
                </tr>
                <For each={known().compared.causes}>
                  {(one) => (
                    <tr>
                      <th scope="row">{one.cause}</th>
                      <td>{decibansText(one.now)}</td>
                      <td>{decibansText(one.earlier)}</td>
                    </tr>
                  )}
                </For>
                <tr>
                  <th scope="row">Finding</th>
                  <td>{known().now.sentence}</td>
                  <td>{known().then.sentence}</td>
                </tr>
              </tbody>
            </table>
            <Show
              when={known().compared.changed.length > 0}
              fallback={<p>No line of evidence weighs otherwise.</p>}
            >
              <ul>
                <For each={known().compared.changed}>
                  {({ cause, now, earlier: then }) => (
                    <li>
                      {cause}: {then ? `${decibansText(then.decibans)} then, ` : 'not there then, '}
                      {now ? `${decibansText(now.decibans)} now` : 'not there now'}. {(now ?? then)?.sentence}
                    </li>
                  )}
                </For>
              </ul>
            </Show>
          </>
        )}
      </Show>
      <For each={earlier.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
    </section>
  )
}

/** The last reading known at the end of a case, held against the levels in force then. */
function stateWords(series: Series, { subject, untilEpochMs }: ReviewCase): string {
  const at = subject.atEpochMs.at(-1)
  const last = at === undefined ? null : { atEpochMs: at, value: subject.values.at(-1) ?? null }
  return knownStateWords(series, last, untilEpochMs)
}

const countSince = ({ subject }: ReviewCase, fromEpochMs: number): number =>
  subject.atEpochMs.filter((at) => at >= fromEpochMs).length
