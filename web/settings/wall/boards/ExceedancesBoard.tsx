import { createMemo, For, Show } from 'solid-js'
import { siteNaming } from '../../../panels/alerts/alert-naming.ts'
import { evaluationSentence, levelsSentence } from '../../../panels/alerts/channel-sentences.ts'
import { ResponseFrame } from '../../../panels/alerts/ResponseFrame.tsx'
import { alertsDocument, alertsKnown, alertsNowEpochMs, evaluationHere } from '../../../state/alerts.ts'
import { siteDocument, siteLookup } from '../../../state/site-document.ts'
import { leastText } from '../../../state/wall-text.ts'
import { channelsNow } from '../../../state/watched-channels.ts'
import { alertRows, silentRows } from './exceedance-rows.ts'
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
    const silent = silentRows(
      document,
      seriesByNumber,
      (point) => pointById.get(point)?.instrument ?? point,
      naming,
    )
    return [...silent, ...alertRows(document.alerts, naming)].map((row) => ({
      cells: [row.where, row.what, row.since, row.furthest, row.response],
      presses: row.alert === null || row.alert.closed === null,
      ...(row.alert?.closed === null && {
        sign: () => row.alert && <ResponseFrame alert={row.alert} size={Math.round(leastText() * 1.2)} />,
      }),
    }))
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
            shares={[21, 15, 21, 13, 30]}
            rows={rows()}
          />
        </Show>
      </Show>
    </div>
  )
}
