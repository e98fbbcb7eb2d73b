import { For, Show } from 'solid-js'
import { causeMeans } from '#domain/review/cause.ts'
import type { JudgedSeries, PatchEvidence } from '#domain/review/patch-evidence.ts'
import { statesAtClock } from '../../state/series-states.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { levelOf, standingName, standingOf } from '../../ui/state-scale.ts'
import { openReviewOf } from './open-review-of.ts'

/** How many series of a patch bear each cause; each name opens the evidence of its series. */
export function PatchEvidenceTable(props: { evidence: PatchEvidence }) {
  return (
    <>
      <p class="review-finding" role="status">
        {props.evidence.sentence}
      </p>
      <table class="plain">
        <caption>What bears it, by series</caption>
        <thead>
          <tr>
            <th scope="col">Cause</th>
            <th scope="col">Leads in</th>
            <th scope="col">Also speaks in</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.evidence.causes}>
            {({ cause, leads, alsoFor }) => (
              <tr title={causeMeans[cause]}>
                <th scope="row" class="patch-cause">
                  {cause}
                </th>
                <td>
                  <Named series={leads} />
                </td>
                <td>
                  <Named series={alsoFor} />
                </td>
              </tr>
            )}
          </For>
          <tr>
            <th scope="row">Nothing odd told</th>
            <td colspan="2">
              <Named series={props.evidence.nothingOdd} />
              <Show when={atLevels(props.evidence.nothingOdd)}>{(words) => <small>{words()}</small>}</Show>
            </td>
          </tr>
          <tr>
            <th scope="row">Not judged</th>
            <td colspan="2">
              <Named series={props.evidence.notJudged} />
              <Show when={props.evidence.notJudged.length > 0}>
                <small>
                  {props.evidence.notJudged
                    .map(({ point, notJudged }) => `${point}: ${notJudged}`)
                    .join('; ')}
                </small>
              </Show>
            </td>
          </tr>
        </tbody>
      </table>
      <p class="review-known">
        Each series is weighed by the rules of its own review, which its name opens. A person decides; what is
        read is treated as real until shown otherwise.
      </p>
    </>
  )
}

/** Whatever stands at a level may have come there before the days looked at; null: none of them does. */
function atLevels(series: readonly JudgedSeries[]): string | null {
  const states = statesAtClock()?.states
  if (!states) return 'Whether any of them stands at a level is not known yet.'
  const names = siteDocument()?.facts.levelNames ?? []
  const reached = series.flatMap((one) => {
    const standing = standingOf(states.get(siteLookup().seriesById.get(one.series)?.series ?? -1))
    return levelOf(standing) > 0 ? [`${one.point} at ${standingName(standing, names)}`] : []
  })
  return reached.length === 0
    ? null
    : `Of them ${reached.join(', ')}: nothing odd in the days looked at takes no level away.`
}

function Named(props: { series: readonly JudgedSeries[] }) {
  return (
    <Show when={props.series.length > 0} fallback="none">
      <span class="patch-series">
        <b>{props.series.length}</b>
        <For each={props.series}>
          {(one) => (
            <button
              type="button"
              aria-label={`Review of ${one.series}`}
              onClick={() => openReviewOf(one.series)}
            >
              {one.point}
            </button>
          )}
        </For>
      </span>
    </Show>
  )
}
