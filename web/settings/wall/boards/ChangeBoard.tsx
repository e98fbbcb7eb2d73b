import { createMemo, createSignal, Show } from 'solid-js'
import type { StateDocument } from '#contract/state-document.ts'
import {
  type ChangesOfMeasure,
  changeSeries,
  changesBetween,
  type KnownValue,
  revisedSince,
} from '../../../derived/meeting/changes-between.ts'
import { createAnswer } from '../../../panels/create-answer.ts'
import { oftenRead } from '../../../queries/often-read.ts'
import { seriesStatesAt } from '../../../queries/series-states-at.ts'
import { askServer, sentenceOf } from '../../../state/ask-server.ts'
import { cutOffEpochMs } from '../../../state/frozen.ts'
import { meeting, previousMeeting } from '../../../state/meeting.ts'
import { frozenPath } from '../../../state/open-frozen.ts'
import { surfaceTrouble, workedSurface } from '../../../state/plan-surface.ts'
import { siteDocument, stateDocument } from '../../../state/site-document.ts'
import { formatInstant } from '../../../ui/format-instant.ts'
import { sync } from '../../../ui/sync.ts'
import { changeRows } from './change-rows.ts'
import { Nothing } from './Nothing.tsx'
import { RowPages } from './RowPages.tsx'

/** What changed between the cut-off of the meeting before and that of this one; revised values stand apart. */
export function ChangeBoard() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <Show
      when={previousMeeting()}
      fallback={
        <Nothing
          missing={
            meeting()?.previous === null
              ? 'This is the first meeting: there is no change since the last.'
              : 'The meeting before is not on record here any more.'
          }
          concluded="How far things have gone since the beginning stands on the histories."
        />
      }
    >
      {(before) => (
        <div class="board-table board-change">
          <p class="board-said">
            From {formatInstant(before().cutOffEpochMs, zone())} (“{before().title}”) to{' '}
            {formatInstant(cutOffEpochMs() ?? 0, zone())}. Intervals hold 95 %. The coloured surface is
            smoothed between points: a single one can go beyond its range. Symbols show levels at the cut-off.
          </p>
          <Changes />
        </div>
      )}
    </Show>
  )
}

const isOnPlan = ({ measure }: Pick<ChangesOfMeasure, 'measure'>): boolean => measure === 'settlement'

function Changes() {
  const [told, setTold] = createSignal<StateDocument | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  sync(previousMeeting, (before) => {
    // What it told then is in its own frozen set, which is earlier than ours.
    if (before?.frozenSet)
      askServer<StateDocument>(frozenPath(before.site, before.frozenSet, '/state')).then(setTold, (cause) =>
        setTrouble(sentenceOf(cause)),
      )
  })
  const series = createMemo(() => {
    const document = siteDocument()
    return document ? changeSeries(document, cutOffEpochMs() ?? 0) : []
  })
  const asked = createAnswer(() => {
    const before = previousMeeting()
    if (!before || series().length === 0) return null
    return seriesStatesAt({
      atEpochMs: before.cutOffEpochMs,
      refineSeries: oftenRead(series()),
    })
  })
  const rows = createMemo(() => {
    const [answered, states] = [asked.answer(), stateDocument()]
    if (!answered || !states) return null
    const { columns } = answered
    const [numbers, values, instants] = [
      columns.number('series'),
      columns.number('value'),
      columns.number('last_at_ms'),
    ]
    const before = new Map<number, KnownValue>()
    for (let row = 0; row < columns.rows; row++) {
      const value = values[row] as number
      before.set(numbers[row] as number, {
        value: Number.isFinite(value) ? value : null,
        atEpochMs: instants[row] as number,
      })
    }
    const now = new Map(states.states.map((state) => [state.series, state]))
    const reported = told() && new Map(told()?.states.map((state) => [state.series, state]))
    const changes = changesBetween(series(), before, now)
    return changeRows(
      // What the plan beside it colours is told first.
      [...changes.filter(isOnPlan), ...changes.filter((one) => !isOnPlan(one))],
      reported && revisedSince(series(), reported, before),
      zone(),
    )
  })
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <>
      <Show when={trouble()}>
        {(sentence) => (
          <p class="board-trouble">What was told at the meeting before could not be had: {sentence()}</p>
        )}
      </Show>
      <Show when={workedSurface() === null && surfaceTrouble()}>
        {(sentence) => <p class="board-said">{sentence()}</p>}
      </Show>
      <Show
        when={rows()}
        fallback={<p class="board-nothing">{asked.remarks()[0] ?? 'Changes are being worked out …'}</p>}
      >
        {(list) => (
          <RowPages
            caption="Largest changes of each measure"
            headings={['Where', 'Change', '95 % interval']}
            shares={[20, 20, 60]}
            rows={list()}
          />
        )}
      </Show>
    </>
  )
}
