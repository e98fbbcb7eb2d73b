import { For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { markedDays } from '../queries/marked-days.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { createAnswer } from './create-answer.ts'
import { markedSentence } from './marked-sentence.ts'

/** What is said of a series' readings: by the automatic checks of late, and by people. Neither changes the other. */
export function ReadingRemarks(props: { series: Series }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const verdicts = () => (siteDocument()?.verdicts ?? []).filter(({ series }) => series === props.series.id)
  const asked = createAnswer(() => {
    const atEpochMs = clockEpochMs()
    return atEpochMs === null
      ? null
      : markedDays({ atEpochMs: Math.floor(atEpochMs / dayMs) * dayMs, series: props.series.series })
  })
  return (
    <section aria-label="What is said of its readings">
      <h3>What is said of its readings</h3>
      <Show when={asked.answer()} fallback={<p class="waiting">Counting marks of automatic checks …</p>}>
        {(answer) => <p>{markedSentence(answer().columns, props.series.made === true)}</p>}
      </Show>
      <For each={asked.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={verdicts().length > 0} fallback={<p>No person's verdict on its readings is on record.</p>}>
        <table class="plain">
          <caption>Verdicts; the readings stay drawn and held against levels</caption>
          <thead>
            <tr>
              <th scope="col">Verdict</th>
              <th scope="col">From, until</th>
              <th scope="col">Reason</th>
              <th scope="col">Also considered</th>
              <th scope="col">By</th>
            </tr>
          </thead>
          <tbody>
            <For each={verdicts()}>
              {(verdict) => (
                <tr>
                  <th scope="row">{verdict.verdict}</th>
                  <td>
                    {formatShortInstant(verdict.fromAt, zone())} to{' '}
                    {verdict.untilAt === null ? 'now' : formatShortInstant(verdict.untilAt, zone())}
                  </td>
                  <td>{verdict.reason}</td>
                  <td>{verdict.alternatives}</td>
                  <td>
                    {verdict.author} <small>{formatShortInstant(verdict.at, zone())}</small>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
    </section>
  )
}

const dayMs = 86_400_000
