import { createSignal, For, Show } from 'solid-js'
import type { AlertRecord } from '#contract/alerts.ts'
import { responseOf } from '../../derived/alerts/response-state.ts'
import { alertsDocument, alertsNowEpochMs } from '../../state/alerts.ts'
import { openAlert } from '../../state/alerts-page.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { sync } from '../../ui/sync.ts'
import { AlertFacts } from './AlertCard.tsx'
import { siteNaming } from './alert-naming.ts'
import { alertHeading, responseWords } from './alert-words.ts'
import { eventSentence } from './event-words.ts'
import { NextSteps } from './NextSteps.tsx'
import { ResponseFrame } from './ResponseFrame.tsx'
import { showAlertsPoint, showReadingsOf } from './show-alert.ts'

/** One alert with everything that happened to it, in order. */
export function AlertRecordPage(props: { alert: number }) {
  const [record, setRecord] = createSignal<AlertRecord | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<AlertRecord>(path, signal))
  sync(
    () => ({ site: siteDocument()?.facts.id, alert: props.alert, latest: alertsDocument()?.latest }),
    ({ site, alert }) => {
      if (site === undefined) return
      ask(sitePath(site, `/alerts/${alert}`)).then(
        (answer) => {
          if (!answer) return
          setTrouble(null)
          setRecord(answer)
        },
        (cause) => setTrouble(sentenceOf(cause)),
      )
    },
  )
  return (
    <section class="alerts-page" aria-label={`Record of alert ${props.alert}`}>
      <div class="buttons">
        <button type="button" onClick={() => openAlert(null)}>
          Back to all alerts
        </button>
      </div>
      <Show when={trouble()}>
        {(sentence) => (
          <p class="trouble" role="alert">
            The record of alert {props.alert} could not be had: {sentence()}
            {record() ? ' What stands below is as last heard.' : ''}
          </p>
        )}
      </Show>
      <Show
        when={record()}
        fallback={<Show when={!trouble()}>{<p class="waiting">Asking for the record …</p>}</Show>}
      >
        {(shown) => <RecordShown record={shown()} />}
      </Show>
    </section>
  )
}

function RecordShown(props: { record: AlertRecord }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const alert = () => props.record.alert
  const level = () => {
    const { cause } = alert()
    return cause.kind === 'level' ? cause.level : null
  }
  return (
    <article class="alert-card" data-response={responseOf(alert())}>
      <header>
        <ResponseFrame alert={alert()} size={40} />
        <div>
          <h2>
            {alertHeading(alert(), siteNaming())} <small>alert {alert().alert}</small>
          </h2>
          <p class="alert-response">{responseWords[responseOf(alert())]}</p>
        </div>
      </header>
      <AlertFacts alert={alert()} atEpochMs={alertsNowEpochMs()} />
      <Show when={level()}>
        {(of) => (
          <p>
            The level as it stood when this was raised: {of().id}, because {of().reason}. Proposed by{' '}
            {of().author}, approved by {of().approver}.
          </p>
        )}
      </Show>
      <Show when={alert().point !== null}>
        <div class="buttons">
          <button type="button" onClick={() => showAlertsPoint(alert())}>
            Show {alert().point} on the plan
          </button>
          <button type="button" onClick={() => showReadingsOf(alert())}>
            Its readings at that time
          </button>
          <button type="button" onClick={() => showAlertsPoint(alert(), 'record')}>
            How its value was computed
          </button>
        </div>
      </Show>
      <NextSteps alert={alert()} latest={props.record.latest} />
      <section aria-label="What happened">
        <h3>What happened, in order</h3>
        <ol class="alert-events">
          <For each={props.record.events}>
            {(event) => (
              <li>
                <time datetime={new Date(event.atEpochMs).toISOString()}>
                  {formatInstant(event.atEpochMs, zone())}
                </time>{' '}
                {eventSentence(event, siteNaming(), (id) => props.record.names[id] ?? id)}
              </li>
            )}
          </For>
        </ol>
      </section>
      <Show when={props.record.escalation.length > 0}>
        <section aria-label="How people are told">
          <h3>How people are told</h3>
          <ul class="alert-lines">
            <For each={props.record.escalation}>{(sentence) => <li>{sentence}</li>}</For>
          </ul>
        </section>
      </Show>
    </article>
  )
}
