import { createMemo, For, Show } from 'solid-js'
import { byClosing } from '../../../derived/alerts/alert-groups.ts'
import { responseOf, responseStates, stillReached } from '../../../derived/alerts/response-state.ts'
import { siteNaming } from '../../../panels/alerts/alert-naming.ts'
import { responseWords } from '../../../panels/alerts/alert-words.ts'
import { evaluationSentence, levelsSentence } from '../../../panels/alerts/channel-sentences.ts'
import { alertsDocument, alertsKnown, alertsNowEpochMs, evaluationHere } from '../../../state/alerts.ts'
import { siteDocument, siteLookup } from '../../../state/site-document.ts'
import { channelsNow } from '../../../state/watched-channels.ts'
import { alertRows, closedRows, type ExceedanceRow, silentRows } from './exceedance-rows.ts'
import { Nothing } from './Nothing.tsx'
import { type BoardRow, RowPages } from './RowPages.tsx'

/** Levels reached and what was done about them, as on record at the cut-off; what is silent stands before them. */
export function ExceedancesBoard() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const rows = createMemo((): readonly BoardRow[] => {
    const document = alertsDocument()
    if (!document) return []
    const { seriesByNumber, pointById } = siteLookup()
    const naming = siteNaming()
    const closed = document.alerts.filter((alert) => responseOf(alert) === 'closed')
    const over = closed.filter((alert) => !stillReached(alert)).toSorted(byClosing)
    const silent = silentRows(
      document,
      seriesByNumber,
      (point) => pointById.get(point)?.instrument ?? point,
      naming,
    )
    return [
      ...group('Critical channels without current data', silent),
      ...responseStates
        .filter((response) => response !== 'closed')
        .flatMap((response) =>
          group(
            responseWords[response],
            alertRows(
              document.alerts.filter((alert) => responseOf(alert) === response),
              naming,
            ),
          ),
        ),
      // A person has closed the response; the ground has not gone back.
      ...group('Closed, and still reached', alertRows(closed.filter(stillReached), naming), true),
      ...group(
        'Closed in the 90 days before the cut-off, and over',
        closedRows(over, naming),
        false,
        over.length,
      ),
    ]
  })
  const said = (): readonly string[] => {
    const [channels, evaluation] = [channelsNow(), evaluationHere()]
    if (!channels || !evaluation) return []
    return [
      levelsSentence(channels, evaluation, zone()),
      evaluationSentence(evaluation, alertsNowEpochMs(), zone()),
    ].filter((sentence) => sentence !== null)
  }
  const trouble = () => {
    const standing = alertsKnown()
    return standing.kind === 'present' ? null : standing.sentence
  }
  return (
    <div class="board-table">
      <Show when={trouble()}>{(sentence) => <p class="board-trouble">{sentence()}</p>}</Show>
      <Show when={alertsDocument()}>
        <p class="board-said">
          <For each={said()}>{(sentence) => <span>{sentence} </span>}</For>
        </p>
        <Show
          when={rows().length > 0}
          fallback={
            <Nothing
              missing="No alert of the last 90 days is on record at the cut-off, and no critical channel is silent."
              concluded="That does not mean that nothing moved: levels watch only the channels that have them."
            />
          }
        >
          <RowPages
            caption="Exceedances and their responses"
            headings={['Where', 'Level', 'Since', 'Furthest', 'Response']}
            shares={[20, 11, 22, 13, 34]}
            rows={rows()}
          />
        </Show>
      </Show>
    </div>
  )
}

const group = (
  heading: string,
  rows: readonly ExceedanceRow[],
  presses = false,
  count = rows.length,
): readonly BoardRow[] =>
  rows.length === 0
    ? []
    : [
        { heading: `${heading}: ${count}`, cells: [] },
        ...rows.map((row) => ({
          cells: [row.where, row.what, row.since, row.furthest, row.response],
          presses: presses || row.alert === null || row.alert.closed === null,
        })),
      ]
