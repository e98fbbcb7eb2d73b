import { createMemo, For, Show } from 'solid-js'
import { type LoggerStanding, loggerStandings } from '#domain/network/logger-condition.ts'
import {
  type LoggerLine,
  lastHeardOf,
  loggerLines,
  silentCritical,
} from '../../../derived/network-condition.ts'
import { createNetworkDocument } from '../../../panels/network/create-network-document.ts'
import { createOutlooks } from '../../../panels/network/create-outlooks.ts'
import { completenessWords, standingWords } from '../../../panels/network/logger-words.ts'
import { silenceSentence } from '../../../panels/network/silence-sentence.ts'
import { alertsDocument } from '../../../state/alerts.ts'
import { statesAtClock } from '../../../state/series-states.ts'
import { siteDocument, siteLookup } from '../../../state/site-document.ts'
import { formatAge, formatShortInstant } from '../../../ui/format-instant.ts'
import { type BoardRow, RowPages } from './RowPages.tsx'
import { watchedRows } from './watched-rows.ts'

/** Loggers that ask for a person by name; the others are counted. */
const named: ReadonlySet<LoggerStanding> = new Set(['silent', 'never-heard', 'look-into'])

/** How the loggers stood at the cut-off: counts by condition, then what is silent and critical by name. */
export function NetworkBoard() {
  const network = createNetworkDocument(undefined, true)
  const cells = createOutlooks()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const lines = createMemo(() => {
    const [document, site] = [network.document(), siteDocument()]
    return document && site ? loggerLines(document, site, cells.loggers(), cells.outlooks()) : []
  })
  const counts = createMemo(() =>
    loggerStandings.map((standing) => ({
      standing,
      count: lines().filter(({ condition }) => condition.standing === standing).length,
    })),
  )
  const rows = createMemo((): readonly BoardRow[] => {
    const document = network.document()
    if (!document) return []
    const { seriesById, pointById } = siteLookup()
    const silent = silentCritical(
      document,
      seriesById,
      (point) => pointById.get(point)?.instrument ?? point,
      statesAtClock()?.states ?? null,
    )
    const asking = lines().filter(({ condition }) => named.has(condition.standing))
    return [
      { heading: 'Critical channels without a current value', cells: [] },
      ...(silent === null || silent.length === 0
        ? [
            {
              cells: [
                silent === null ? 'not known yet' : 'none',
                '',
                silent === null
                  ? 'Which critical channels are silent is still being worked out.'
                  : 'Every critical channel had a value that was not late at the cut-off.',
              ],
            },
          ]
        : silent.map(
            (one): BoardRow => ({
              cells: [
                one.instrument,
                document.forClients ? String(one.series.length) : `${one.series.length} on ${one.logger}`,
                capital(silenceSentence(one, document.asOfEpochMs, zone()).says),
              ],
              presses: true,
            }),
          )),
      ...watchedRows(alertsDocument()),
      { heading: 'Loggers to be looked into', cells: [] },
      ...(document.forClients && asking.length > 0
        ? [{ cells: [String(asking.length), '', forClientsSentence], presses: true }]
        : asking.length === 0
          ? [{ cells: ['none', '', 'No logger is silent or asks for a look by what was received.'] }]
          : asking.map(({ facts, condition, completeness }): BoardRow => {
              const heard = lastHeardOf(facts)
              const last =
                heard === null
                  ? 'Never heard.'
                  : `Last heard ${formatShortInstant(heard, zone())}, ${formatAge(document.asOfEpochMs - heard)} before the cut-off; ${completenessWords(completeness)} readings of 7 days.`
              return {
                cells: [
                  facts.logger,
                  standingWords[condition.standing],
                  [last, ...condition.remarks.map(({ says }) => says)].join(' '),
                ],
                presses: condition.standing !== 'look-into',
              }
            })),
    ]
  })
  return (
    <div class="board-table">
      <Show when={network.trouble()}>{(sentence) => <p class="board-trouble">{sentence()}</p>}</Show>
      <Show
        when={network.document()}
        fallback={<p class="board-nothing">The state of the network is being fetched …</p>}
      >
        <ul class="board-counts" aria-label="Loggers by condition">
          <For each={counts()}>
            {({ standing, count }) => (
              <li classList={{ none: count === 0 }} data-standing={standing}>
                <strong>{count}</strong>
                <span>{standingWords[standing]}</span>
              </li>
            )}
          </For>
        </ul>
        <p class="board-said">{deliveredSentence(lines())}</p>
        <RowPages
          caption="Network condition"
          headings={['Name', 'Condition', 'What is known']}
          shares={[16, 20, 64]}
          rows={rows()}
        />
      </Show>
    </div>
  )
}

/** What was due of all loggers in the last seven days that lateness does not excuse, and how much of it came. */
function deliveredSentence(lines: readonly LoggerLine[]): string {
  const sum = (of: (line: LoggerLine) => number) => lines.reduce((total, line) => total + of(line), 0)
  const due = sum(({ completeness }) => completeness.due)
  if (due === 0) return 'No reading was due of any logger in the last 7 days.'
  const [held, inTime] = [
    sum(({ completeness }) => completeness.held),
    sum(({ completeness }) => completeness.inTime),
  ]
  const count = (number: number) => number.toLocaleString('en-GB')
  return `Of ${count(due)} readings due of ${lines.length} loggers in the last 7 days, ${count(inTime)} came in time, ${count(held - inTime)} late, ${count(due - held)} not at all by the cut-off.`
}

/** What stands for a client in place of loggers by name. */
const forClientsSentence =
  'Which loggers these are, and what is to be done there, is known to those who keep the instruments; ask them at the meeting.'

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`
