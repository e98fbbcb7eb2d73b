import { createMemo, createSignal, For, Show } from 'solid-js'
import { type RoundStop, roundStops } from '../../derived/round-stops.ts'
import { fieldGuide, fieldGuideTrouble } from '../../state/field-guide.ts'
import { openFieldPage } from '../../state/field-page.ts'
import { knownEntries } from '../../state/field-work.ts'
import { distanceText, ownPosition } from '../../state/own-position.ts'
import { selectInstrument } from '../../state/selection.ts'
import { siteDocument, stateDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { errandSentence } from './errand-sentence.ts'
import { OwnPlace } from './OwnPlace.tsx'

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
  const round = createMemo(() => {
    const [document, states, guide] = [siteDocument(), stateDocument(), fieldGuide()]
    if (!document || !states || !guide || guide.site !== document.facts.id) return null
    const nowEpochMs = siteNowEpochMs()
    return roundStops(document, states, guide, {
      logger: logger(),
      nowEpochMs,
      horizonEpochMs: nowEpochMs + days() * dayMs,
      readHere: readHere(),
      from: ownPosition(),
    })
  })
  return (
    <section class="field-page" aria-label="Round">
      <h2>Round</h2>
      <OwnPlace />
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
      <Show when={round()} fallback={<p class="waiting">Working out the round …</p>}>
        {(found) => (
          <>
            <p role="status">
              {found().stops.length === 0
                ? 'Nothing is due or known to be wrong. What has no current data is listed under Silence.'
                : `${found().stops.length} places, ${distanceText(found().totalMetres)} in straight lines.`}{' '}
              States as of {formatInstant(stateDocument()?.asOfEpochMs ?? 0, zone())}.
            </p>
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
  const byHand = () => props.stop.errands.some(({ kind }) => kind === 'read-by-hand')
  return (
    <li data-urgency={props.stop.urgency}>
      <button type="button" class="round-place" onClick={() => selectInstrument(instrument())}>
        <strong>{props.stop.location}</strong>
        <span>
          {props.stop.urgency === 0 ? 'first · ' : ''}
          {props.stop.awayMetres === null ? '' : `${distanceText(props.stop.awayMetres)} away`}
        </span>
      </button>
      <ul>
        <For each={props.stop.errands}>
          {(errand) => <li>{errandSentence(errand, siteNowEpochMs(), props.zone)}</li>}
        </For>
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

/** Readings that this device knows of and the states may not have yet. */
function readHere(): ReadonlyMap<string, number> {
  const latest = new Map<string, number>()
  for (const { entry } of knownEntries())
    if (entry.body.kind === 'reading')
      latest.set(entry.body.sensor, Math.max(entry.body.atEpochMs, latest.get(entry.body.sensor) ?? 0))
  return latest
}
