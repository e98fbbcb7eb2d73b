import { createMemo, createSignal, For, Show } from 'solid-js'
import { alertGroups } from '../../derived/alerts/alert-groups.ts'
import { type ResponseState, responseStates } from '../../derived/alerts/response-state.ts'
import {
  alertsAtClock,
  alertsDocument,
  alertsKnown,
  alertsNowEpochMs,
  evaluationHere,
  refreshAlerts,
} from '../../state/alerts.ts'
import { reportTrouble } from '../../state/notices.ts'
import { mayHere } from '../../state/own-account.ts'
import { siteDocument } from '../../state/site-document.ts'
import { channelsNow } from '../../state/watched-channels.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { VerdictRemarks } from '../VerdictRemarks.tsx'
import { AlertCard } from './AlertCard.tsx'
import { siteNaming } from './alert-naming.ts'
import { tellingSentence } from './banner-sentence.ts'
import { evaluationSentence, levelsSentence, unknownSentence } from './channel-sentences.ts'
import { crossingSentence } from './crossing-words.ts'
import { stepPermission } from './step-words.ts'

/** Alerts by how far the response is, under what must be read with them. */
export function AlertList() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  // By number, so that a card stays the same, and keeps the focus, when the list comes anew.
  const numbersOf = createMemo(
    () =>
      new Map(
        alertGroups(alertsAtClock()?.alerts ?? []).map(({ response, alerts }) => [
          response,
          alerts.map(({ alert }) => alert),
        ]),
      ),
  )
  const retry = () => {
    const site = siteDocument()?.facts.id
    if (site !== undefined) refreshAlerts(site).catch((cause) => reportTrouble({ cause }))
  }
  const notKnown = () => {
    const standing = alertsKnown()
    return standing.kind === 'present' ? null : standing.sentence
  }
  return (
    <section class="alerts-page" aria-label="Alerts">
      <Show when={notKnown()}>
        {(sentence) => (
          <div class="trouble" role="status">
            <p>{sentence()}</p>
            <button type="button" onClick={retry}>
              Ask again
            </button>
          </div>
        )}
      </Show>
      <AlertCautions />
      <VerdictRemarks about={() => true} effects={['level to be reviewed']} />
      <Show when={!mayHere(siteDocument()?.facts.id ?? '', stepPermission.acknowledge)}>
        <p class="waiting">Whoever only reads here is offered no step of a response.</p>
      </Show>
      <Show when={alertsAtClock()}>
        {(known) => (
          <>
            <Show when={known().isPast}>
              <p class="trouble">
                As it stood at {formatInstant(known().atEpochMs, zone())}, by what is on record now: nothing
                of what was done later is shown, and no step is offered.
                {known().asIfEvaluated
                  ? ' Invented data: shown as if levels had been evaluated as readings came in.'
                  : ''}
                {known().mayLack ? ' Alerts closed more than 90 days ago are not in the list.' : ''}
              </p>
            </Show>
            <For each={responseStates}>
              {(response) => (
                <AlertGroupShown
                  response={response}
                  numbers={numbersOf().get(response) ?? []}
                  isPast={known().isPast}
                />
              )}
            </For>
            <Show when={!known().isPast}>
              <Crossings />
            </Show>
          </>
        )}
      </Show>
      <p class="alert-cautions">
        Monitoring data support, and do not replace, the judgement of the responsible engineer. Readings are
        provisional until approved. No alert does not mean no movement.
      </p>
    </section>
  )
}

/** So many at first: a flood must not bury the page. */
const mostAtOnce = 20

function AlertGroupShown(props: { response: ResponseState; numbers: readonly number[]; isPast: boolean }) {
  const [most, setMost] = createSignal(mostAtOnce)
  const byNumber = createMemo(
    () => new Map((alertsAtClock()?.alerts ?? []).map((alert) => [alert.alert, alert])),
  )
  const more = () => Math.max(0, props.numbers.length - most())
  return (
    <section class="alert-group" aria-label={groupNames[props.response].heading}>
      <h2>
        {groupNames[props.response].heading} <small>{props.numbers.length}</small>
      </h2>
      <Show when={props.numbers.length === 0}>
        <p class="waiting">{groupNames[props.response].none}</p>
      </Show>
      <For each={props.numbers.slice(0, most())}>
        {(number) => (
          <Show when={byNumber().get(number)}>
            {(alert) => (
              <AlertCard
                alert={alert()}
                atEpochMs={alertsAtClock()?.atEpochMs ?? alertsNowEpochMs()}
                isPast={props.isPast}
              />
            )}
          </Show>
        )}
      </For>
      <Show when={more() > 0}>
        <button type="button" onClick={() => setMost((now) => now + mostAtOnce)}>
          Show {Math.min(mostAtOnce, more())} more of {props.numbers.length}
        </button>
      </Show>
    </section>
  )
}

/** An empty part is said to be empty in words that reassure of nothing. */
const groupNames: Readonly<Record<ResponseState, { readonly heading: string; readonly none: string }>> = {
  nobody: {
    heading: 'Needs somebody now',
    none: 'No alert waits for somebody. That says nothing of channels without current data.',
  },
  'taken-up': { heading: 'Acknowledged, to be verified', none: 'None.' },
  verified: { heading: 'Verified, to be closed', none: 'None.' },
  closed: { heading: 'Closed in the last 90 days, or still reached', none: 'None.' },
}

/** What must be read with the list, as last heard; of a past clock only the standing cautions. */
function AlertCautions() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const sentences = (): readonly string[] => {
    const [document, channels, evaluation] = [alertsDocument(), channelsNow(), evaluationHere()]
    // What is so now is not told of the past.
    if (alertsAtClock()?.isPast || !document || !channels || !evaluation || alertsKnown().kind !== 'present')
      return []
    return [
      levelsSentence(channels, evaluation, zone()),
      unknownSentence(channels, zone()),
      evaluationSentence(evaluation, alertsNowEpochMs(), zone()),
      tellingSentence(document.telling),
    ].filter((sentence) => sentence !== null)
  }
  return (
    <div class="alert-cautions">
      <For each={sentences()}>{(sentence) => <p>{sentence}</p>}</For>
      <p>
        Follow the project’s response plan and local regulations; in immediate danger, leave and call the site
        emergency contact.
      </p>
    </div>
  )
}

/** Crossings that raised nothing: too short, or not long enough yet. */
function Crossings() {
  const levels = createMemo(
    () => new Map((siteDocument()?.triggerLevels ?? []).map((level) => [level.id, level])),
  )
  const crossings = () => alertsDocument()?.crossings ?? []
  return (
    <section class="alert-group" aria-label="Crossings that did not hold">
      <h2>
        Crossings that did not hold, or not yet, of the last 7 days <small>{crossings().length}</small>
      </h2>
      <Show when={crossings().length > 0} fallback={<p class="waiting">None.</p>}>
        <ul class="alert-lines">
          <For each={crossings()}>
            {(crossing) => <li>{crossingSentence(crossing, levels().get(crossing.level), siteNaming())}</li>}
          </For>
        </ul>
      </Show>
    </section>
  )
}
