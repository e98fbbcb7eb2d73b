import { For, Show } from 'solid-js'
import type { ListedAlert } from '#contract/alerts.ts'
import { responseOf } from '../../derived/alerts/response-state.ts'
import { alertsAtClock } from '../../state/alerts.ts'
import { openAlert } from '../../state/alerts-page.ts'
import { mayHere } from '../../state/own-account.ts'
import { statesAtClock } from '../../state/series-states.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { describeState } from '../describe-point.ts'
import { VerdictRemarks } from '../VerdictRemarks.tsx'
import { siteNaming } from './alert-naming.ts'
import {
  alertHeading,
  alertRemarks,
  dueSentence,
  planSentence,
  reachedSentence,
  responseWords,
  stepSentences,
  toldSentences,
  valueSentence,
} from './alert-words.ts'
import { NextSteps } from './NextSteps.tsx'
import { ResponseFrame } from './ResponseFrame.tsx'
import { showAlertsPoint } from './show-alert.ts'

/** An alert with what is known of it and what comes next. `isPast`: as it stood, so that no step is offered. */
export function AlertCard(props: { alert: ListedAlert; atEpochMs: number; isPast: boolean }) {
  const heading = () => `alert-${props.alert.alert}`
  return (
    <article
      class="alert-card"
      data-response={responseOf(props.alert)}
      classList={{ 'not-borne-out': !props.alert.bornOut }}
      aria-labelledby={heading()}
    >
      <header>
        <ResponseFrame alert={props.alert} size={34} />
        <div>
          <h3 id={heading()}>
            {alertHeading(props.alert, siteNaming())} <small>alert {props.alert.alert}</small>
          </h3>
          <p class="alert-response">{responseWords[responseOf(props.alert)]}</p>
        </div>
      </header>
      <AlertFacts alert={props.alert} atEpochMs={props.atEpochMs} />
      <div class="buttons">
        <Show when={mayHere(siteDocument()?.facts.id ?? '', 'read-all')}>
          <button
            type="button"
            aria-label={`Record of alert ${props.alert.alert}`}
            onClick={() => openAlert(props.alert.alert)}
          >
            Record
          </button>
        </Show>
        <Show when={props.alert.point !== null}>
          <button
            type="button"
            aria-label={`Show ${props.alert.point} on the plan`}
            onClick={() => showAlertsPoint(props.alert)}
          >
            Show {props.alert.point}
          </button>
        </Show>
      </div>
      <Show when={!props.isPast}>
        <NextSteps alert={props.alert} />
      </Show>
    </article>
  )
}

/** What is known of an alert in sentences: since when, how far, what was agreed, who was told. */
export function AlertFacts(props: { alert: ListedAlert; atEpochMs: number }) {
  const naming = siteNaming
  const now = () => {
    const series = siteLookup().seriesById.get(props.alert.series ?? '')
    const judged = statesAtClock()
    if (!series || !judged) return null
    const levelNames = siteDocument()?.facts.levelNames ?? []
    return describeState(series, judged.states.get(series.series), judged.atEpochMs, levelNames)
  }
  return (
    <>
      <p>{reachedSentence(props.alert, props.atEpochMs, naming())}</p>
      <Show when={valueSentence(props.alert, props.atEpochMs, naming())}>
        {(sentence) => <p>{sentence()}</p>}
      </Show>
      <Show when={now()}>{(words) => <p>At the clock: {words()}.</p>}</Show>
      <For each={alertRemarks(props.alert, props.atEpochMs, naming())}>
        {(remark) => <p class="trouble">{remark}</p>}
      </For>
      <VerdictRemarks
        about={(series) => series === props.alert.series}
        effects={['flag readings', 'level to be reviewed']}
      />
      <Show when={planSentence(props.alert)}>
        {(plan) => (
          <p class="alert-plan">
            <strong>Response: {plan()}</strong>{' '}
            <Show when={!alertsAtClock()?.asIfEvaluated && dueSentence(props.alert, props.atEpochMs)}>
              {(due) => <span classList={{ overdue: due().overdue }}>{due().says}</span>}
            </Show>
          </p>
        )}
      </Show>
      <ul class="alert-lines">
        <For each={[...toldSentences(props.alert, naming()), ...stepSentences(props.alert, naming())]}>
          {(sentence) => <li>{sentence}</li>}
        </For>
      </ul>
    </>
  )
}
