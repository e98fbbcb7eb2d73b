import { createMemo, createSignal, For, Show } from 'solid-js'
import { loggerErrands } from '../../derived/logger-errands.ts'
import { loggerLines } from '../../derived/network-condition.ts'
import { latestReadingsHere } from '../../derived/readings-here.ts'
import { type LoggerErrand, type RoundStop, roundStops } from '../../derived/round-stops.ts'
import { unansweredSinceEpochMs } from '../../state/connection.ts'
import { fieldGuide, fieldGuideTrouble } from '../../state/field-guide.ts'
import { openFieldPage } from '../../state/field-page.ts'
import { knownEntries } from '../../state/field-work.ts'
import { distanceText, ownPosition } from '../../state/own-position.ts'
import { selectInstrument } from '../../state/selection.ts'
import { isAtPresent } from '../../state/site-clock.ts'
import { siteDocument, stateDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { areStatesOld, statesAgeMs } from '../../state/states-age.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'
import { createOutlooks } from '../network/create-outlooks.ts'
import { showLogger } from '../network/show-logger.ts'
import { errandSentence } from './errand-sentence.ts'
import { GuideAge } from './GuideAge.tsx'
import { NearestInstruments } from './NearestInstruments.tsx'
import { OwnPlace } from './OwnPlace.tsx'
import { foundSentence, oldRoundSentence } from './round-sentence.ts'

const dayMs = 86_400_000

/** What is due or wrong, in an order in which to walk it. */
export function RoundPage() {
  const [logger, setLogger] = createSignal<string | null>(null)
  const [days, setDays] = createSignal(1)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const crews = createMemo(() => [
    ...new Set(
      fieldGuide()?.sensors.flatMap(({ byHand, wiring }) => (byHand && wiring ? wiring.logger : [])) ?? [],
    ),
  ])
  const network = createNetworkDocument()
  const cells = createOutlooks()
  const loggers = createMemo(() => {
    const [known, site] = [network.document(), siteDocument()]
    if (!known || !site || known.site !== site.facts.id || !isAtPresent() || logger() !== null) return []
    return loggerErrands(loggerLines(known, site, cells.loggers(), cells.outlooks()))
  })
  const loggersSentence = () => {
    if (logger() !== null) return ''
    if (!isAtPresent()) return 'The clock stands in the past: loggers are not in this round.'
    if (network.trouble()) return `Loggers are not in this round. ${network.trouble()}`
    const known = network.document()
    if (!known) return 'How the loggers stand is being asked for …'
    const batteries = cells.outlooks() ? '' : ' Days of their batteries are not known yet.'
    const age = network.ageSentence()
    return `Loggers as known at ${formatInstant(known.asOfEpochMs, zone())}.${age ? ` ${age}` : ''}${batteries}`
  }
  const round = createMemo(() => {
    const [document, states, guide] = [siteDocument(), stateDocument(), fieldGuide()]
    if (!document || !states || !guide || guide.site !== document.facts.id) return null
    const nowEpochMs = siteNowEpochMs()
    const choice = {
      logger: logger(),
      nowEpochMs,
      horizonEpochMs: nowEpochMs + days() * dayMs,
      readHere: latestReadingsHere(knownEntries()),
      from: ownPosition(),
    }
    return roundStops(document, states, guide, choice, loggers())
  })
  return (
    <section class="field-page" aria-label="Round">
      <h2>Round</h2>
      <OwnPlace />
      <NearestInstruments />
      <div class="field-choices">
        <label>
          Who goes
          <select
            value={logger() ?? ''}
            onChange={(event) =>
              setLogger(event.currentTarget.value === '' ? null : event.currentTarget.value)
            }
          >
            <option value="">Everything due or wrong</option>
            <For each={crews()}>{(crew) => <option value={crew}>Read by {crew}</option>}</For>
          </select>
        </label>
        <label>
          Due within
          <select value={days()} onChange={(event) => setDays(Number(event.currentTarget.value))}>
            <option value={0}>now</option>
            <option value={1}>a day</option>
            <option value={7}>a week</option>
          </select>
        </label>
      </div>
      <Show when={fieldGuideTrouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <GuideAge />
      <Show when={round()} fallback={<p class="waiting">Working out the round …</p>}>
        {(found) => (
          <>
            <p role="status">
              <Show
                when={oldStatesSentence()}
                fallback={`States as of ${formatInstant(stateDocument()?.asOfEpochMs ?? 0, zone())}.`}
              >
                {(sentence) => <strong class="trouble">{sentence()}</strong>}
              </Show>{' '}
              {foundSentence(found().stops.length, distanceText(found().totalMetres), areStatesOld())}{' '}
              {loggersSentence()}
            </p>
            <Show when={found().unplaced.errands.length + found().unplaced.loggers.length > 0}>
              <p class="trouble">Without a known place, and so not in the order below:</p>
              <ul>
                <For each={found().unplaced.errands}>
                  {(errand) => <li>{errandSentence(errand, siteNowEpochMs(), zone())}</li>}
                </For>
                <For each={found().unplaced.loggers}>{(one) => <LoggerLineOf errand={one} />}</For>
              </ul>
            </Show>
            <ol class="round-stops">
              <For each={found().stops}>{(stop) => <StopLine stop={stop} zone={zone()} />}</For>
            </ol>
          </>
        )}
      </Show>
    </section>
  )
}

function StopLine(props: { stop: RoundStop; zone: string }) {
  const instrument = () => props.stop.errands[0]?.instrument ?? ''
  const open = () => {
    const [logger] = props.stop.loggers
    if (props.stop.errands.length > 0) selectInstrument(instrument())
    else if (logger) showLogger(logger.logger)
  }
  const byHand = () => props.stop.errands.some(({ kind }) => kind === 'read-by-hand')
  return (
    <li data-urgency={props.stop.urgency}>
      <button type="button" class="round-place" onClick={open}>
        <strong>{props.stop.location}</strong>
        <span>
          {[
            ...(props.stop.urgency === 0 ? ['first'] : []),
            ...(props.stop.awayMetres === null ? [] : [`${distanceText(props.stop.awayMetres)} away`]),
          ].join(' · ')}
        </span>
      </button>
      <ul>
        <For each={props.stop.errands}>
          {(errand) => <li>{errandSentence(errand, siteNowEpochMs(), props.zone)}</li>}
        </For>
        <For each={props.stop.loggers}>{(one) => <LoggerLineOf errand={one} />}</For>
      </ul>
      <Show when={byHand()}>
        <button
          type="button"
          onClick={() => {
            selectInstrument(instrument())
            openFieldPage('reading')
          }}
        >
          Read
        </button>
      </Show>
    </li>
  )
}

function LoggerLineOf(props: { errand: LoggerErrand }) {
  return (
    <li>
      Logger {props.errand.logger}:{' '}
      <For each={props.errand.remarks}>
        {({ says, toDo }) => (
          <>
            {says} <em>{toDo}</em>{' '}
          </>
        )}
      </For>
    </li>
  )
}

/** States that are not the present say nothing of what fell silent or reached a level since. */
function oldStatesSentence(): string {
  const [states, silent] = [stateDocument(), unansweredSinceEpochMs() !== null]
  return states && areStatesOld()
    ? oldRoundSentence(states.asOfEpochMs, statesAgeMs(), silent, siteDocument()?.facts.timeZone ?? 'UTC')
    : ''
}
