import { createMemo, For, Show } from 'solid-js'
import { lookInto } from '#domain/network/logger-condition.ts'
import { lastHeardOf, loggerLines, silentCritical } from '../../derived/network-condition.ts'
import { selectInstrument } from '../../state/selection.ts'
import { statesAtClock, statesTrouble } from '../../state/series-states.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { lastKnownEpochMs } from '../../state/states-age.ts'
import { formatAge, formatInstant, formatShortInstant } from '../../ui/format-instant.ts'
import { createNetworkDocument } from './create-network-document.ts'
import { createOutlooks } from './create-outlooks.ts'
import { FindingList } from './FindingList.tsx'
import { LoggerTable } from './LoggerTable.tsx'
import { silenceSentence } from './silence-sentence.ts'
import './condition.css'

/** What fails in the network, and what will: silent critical channels first, then loggers by what hangs on them. */
export function ConditionPage() {
  const network = createNetworkDocument()
  const cells = createOutlooks()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const lines = createMemo(() => {
    const [document, site] = [network.document(), siteDocument()]
    return document && site ? loggerLines(document, site, cells.loggers(), cells.outlooks()) : []
  })
  const silent = createMemo(() => {
    const document = network.document()
    if (!document) return null
    const { seriesById, pointById } = siteLookup()
    return silentCritical(
      document,
      seriesById,
      (point) => pointById.get(point)?.instrument ?? point,
      statesAtClock()?.states ?? null,
    )
  })
  const byPeople = () => (network.document()?.loggers ?? []).filter(({ kind }) => kind !== 'logger')
  return (
    <section class="network-page" aria-label="Condition">
      <Show when={network.trouble()}>{(sentence) => <p role="alert">{sentence()}</p>}</Show>
      <Show when={network.waiting()}>
        <p class="waiting" role="status">
          The server works out how the loggers did …
        </p>
      </Show>
      <Show when={network.document()}>
        {(document) => (
          <>
            <p>
              As known at {formatInstant(document().asOfEpochMs, zone())}: readings received later are not
              counted.
            </p>
            <Show when={network.ageSentence()}>
              {(sentence) => (
                <p class="trouble" role="alert">
                  {sentence()}
                </p>
              )}
            </Show>
            <section class="network-findings" aria-label="Silent critical channels">
              <h2>Silent critical channels</h2>
              <Show
                when={silent()}
                fallback={
                  <p class="waiting">
                    {statesTrouble() ?? 'Whether any is silent is still being worked out …'}
                  </p>
                }
              >
                {(channels) => (
                  <Show when={channels().length > 0} fallback={<p>{noneSilentSentence(zone())}</p>}>
                    <ul class="silent-channels">
                      <For each={channels()}>
                        {(one) => {
                          const { says, toDo } = silenceSentence(one, document().asOfEpochMs, zone())
                          return (
                            <li>
                              <button type="button" onClick={() => selectInstrument(one.instrument)}>
                                {one.instrument}
                              </button>{' '}
                              ✕ {one.series.length} critical{' '}
                              {one.series.length === 1 ? 'channel' : 'channels'} on {one.logger}: {says}{' '}
                              <em>{toDo}</em>
                            </li>
                          )
                        }}
                      </For>
                    </ul>
                  </Show>
                )}
              </Show>
            </section>
            <section class="network-findings" aria-label="Loggers">
              <h2>Loggers</h2>
              <For each={cells.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
              <Show when={cells.waiting()}>
                <p class="waiting" role="status">
                  Days of the batteries are being fetched …
                </p>
              </Show>
              <LoggerTable lines={lines()} atEpochMs={document().asOfEpochMs} zone={zone()} />
              <ConditionMethod />
            </section>
            <FindingList
              heading="Single points of failure"
              none="None found by companions, measures and ways."
              findings={document().singlePoints}
            />
            <FindingList
              heading="Wiring conflicts"
              none="None: no channel sends without wiring, none is silent beside others of its logger, none has more channels than it has."
              findings={document().wiringConflicts}
            />
            <section class="network-findings" aria-label="Calibrations">
              <h2>Calibrations</h2>
              <p>
                {document().calibrations.due.length} of {document().calibrations.sensors} sensors read now are
                due within 60 days or overdue; of {document().calibrations.withoutDate} no due date is stated,
                so nothing is known of them.
              </p>
            </section>
            <section class="network-findings" aria-label="Read by people">
              <h2>Read by people</h2>
              <ul>
                <For each={byPeople()}>
                  {(facts) => {
                    const heard = lastHeardOf(facts)
                    return (
                      <li>
                        {facts.logger}:{' '}
                        {heard === null
                          ? 'never heard.'
                          : `last round ${formatAge(document().asOfEpochMs - heard)} ago, ${formatShortInstant(heard, zone())}.`}
                      </li>
                    )
                  }}
                </For>
              </ul>
            </section>
          </>
        )}
      </Show>
    </section>
  )
}

/** Of the last known states nothing is said in the present. */
function noneSilentSentence(zone: string): string {
  const lastKnown = lastKnownEpochMs()
  return lastKnown === null
    ? 'None: every critical channel has a value that is not late.'
    : `None at ${formatShortInstant(lastKnown, zone)}; which fell silent since is not known.`
}

function ConditionMethod() {
  return (
    <details>
      <summary>How these are found</summary>
      <ul>
        <li>
          Held: readings of the last seven days that should be here by now, by the wiring and its shortest
          interval, and those that are, by whatever way. In time: received before the logger counts as late.
        </li>
        <li>
          Clock: the quickest reading of each day cannot be quicker than the link, so receipt less stamp falls
          by what a clock gains (Theil’s and Sen’s slope over up to 60 days since it last jumped, 95 %
          interval). Readings fetched by hand tell nothing of a clock.
        </li>
        <li>
          Battery: slope of the day means with temperature as second term over up to 60 days, at the coldest
          day of them, drawn on for no more than three times the days read, 95 % interval. Cells of a flat
          chemistry stay level and end within days: no slope is no promise, and the logger stands as heard
          with cells unknown. Where the voltage falls ever faster the days follow the curve and only their
          upper end the straight line.
        </li>
        <li>
          A logger is to be looked into below {100 * lookInto.heldShareBelow} % held or{' '}
          {100 * lookInto.inTimeShareBelow} % in time, from {lookInto.driftSecondsPerDay} s a day,{' '}
          {lookInto.aheadSeconds} s ahead, or {lookInto.batteryDays} days of battery: common practice, no
          published source.
        </li>
        <li>Walk: on to the nearest logger not yet seen, from the west, in straight lines.</li>
      </ul>
    </details>
  )
}
