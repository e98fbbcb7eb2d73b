import { createMemo, createSignal, For, Show } from 'solid-js'
import type { GuidedSensor } from '#contract/field-guide.ts'
import { expectedNow } from '#domain/field/expected-now.ts'
import type { EarlierValue } from '#domain/field/reading-doubts.ts'
import { readingAheadMinutes } from '#domain/field/reading-place.ts'
import { readingsHere } from '../../derived/readings-here.ts'
import { timeHistory } from '../../queries/time-history.ts'
import { draftFiles, keepDraftFiles } from '../../state/field-drafts.ts'
import { fieldGuide } from '../../state/field-guide.ts'
import { knownEntries } from '../../state/field-work.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { formatInstant, fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { sync } from '../../ui/sync.ts'
import { createAnswer } from '../create-answer.ts'
import { createSigning } from './create-signing.ts'
import { FilesField } from './FilesField.tsx'
import { GuideAge } from './GuideAge.tsx'
import { judgeReading } from './reading-of-sensor.ts'
import { SignedBy } from './SignedBy.tsx'
import { typedNumber } from './typed-number.ts'

const lookBackMs = 120 * 86_400_000

/** A reading taken by hand, held at once against those before it. */
export function ReadingPage() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const byHand = createMemo(() => (fieldGuide()?.sensors ?? []).filter((sensor) => sensor.byHand))
  const [sensorId, setSensorId] = createSignal('')
  const [text, setText] = createSignal('')
  const [at, setAt] = createSignal(toLocalField(siteNowEpochMs(), zone()))
  const [timeGiven, setTimeGiven] = createSignal(false)
  const [because, setBecause] = createSignal('')
  const draft = `reading ${siteDocument()?.facts.id ?? ''}`
  const files = () => draftFiles(draft)
  const setFiles = (chosen: readonly File[]) => keepDraftFiles(draft, chosen)
  const signing = createSigning()
  // The sensor follows what is selected, but never under a number that was typed for another; and none is guessed.
  sync(
    () => ({ instrument: selectedInstrument()?.id, sensors: byHand() }),
    ({ instrument, sensors }) => {
      if (instrument === undefined || text().trim() !== '') return
      if (sensors.some(({ id, instrument: of }) => id === sensorId() && of === instrument)) return
      setSensorId(sensors.find((sensor) => sensor.instrument === instrument)?.id ?? '')
    },
  )
  const otherSelected = () => {
    const selected = selectedInstrument()?.id
    if (selected === undefined || selected === sensor()?.instrument) return null
    return byHand().some(({ instrument }) => instrument === selected)
      ? `${selected} is selected on the plan; what is typed here is for ${sensor()?.id ?? 'no sensor yet'}.`
      : `${selected} is selected on the plan and is not read by hand.`
  }
  const sensor = createMemo(() => byHand().find(({ id }) => id === sensorId()) ?? null)
  const atEpochMs = () => fromLocalField(at(), zone())
  const earlier = createEarlierValues(sensor)
  const judged = createMemo(() => {
    const [on, raw, instant] = [sensor(), typedNumber(text()), atEpochMs()]
    return on && raw !== null && instant !== null
      ? judgeReading(on, raw, instant, earlier.values(), expectedOf(on, instant))
      : null
  })
  const hindrance = () => {
    if (byHand().length === 0) return 'No sensor of this site is read by hand.'
    if (!sensor()) return 'Choose the sensor that was read.'
    if (typedNumber(text()) === null) return 'Type what the display shows, as a number.'
    const instant = atEpochMs()
    if (instant === null) return 'The time cannot be read.'
    if (instant > siteNowEpochMs() + readingAheadMinutes * 60_000)
      return 'The time lies ahead of now. Correct it, or this device’s clock.'
    if (signing.author().trim() === '') return 'Write your name: a reading is signed.'
    if ((judged()?.doubts.length ?? 0) > 0 && because().trim() === '')
      return 'Read it again. If it stays, write what you saw; it is kept with the reading.'
    return null
  }
  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    const [on, raw, instant, site] = [sensor(), typedNumber(text()), atEpochMs(), siteDocument()?.facts.id]
    const against = hindrance()
    if (signing.hinder(against) || !on || raw === null || instant === null || site === undefined) return
    const kept = await signing.keep(
      {
        site,
        body: {
          kind: 'reading',
          sensor: on.id,
          atEpochMs: instant,
          raw,
          confirmedBecause: (judged()?.doubts.length ?? 0) > 0 ? because().trim() : null,
        },
        files: files(),
      },
      `${on.id} kept on this device: ${text().trim()} ${on.rawUnit}.`,
    )
    if (!kept) return
    setText('')
    setBecause('')
    setFiles([])
    setTimeGiven(false)
    setAt(toLocalField(siteNowEpochMs(), zone()))
  }
  return (
    <form class="field-page" aria-label="Reading by hand" onSubmit={save}>
      <h2>Reading by hand</h2>
      <GuideAge />
      <label>
        Sensor
        <select value={sensorId()} onChange={(event) => setSensorId(event.currentTarget.value)}>
          <option value="">Choose the sensor …</option>
          <For each={byHand()}>{({ id }) => <option value={id}>{id}</option>}</For>
        </select>
      </label>
      <Show when={otherSelected()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <div class="field-choices">
        <label>
          Shown on the display{sensor() ? `, ${sensor()?.rawUnit}` : ''}
          <input
            class="field-number"
            inputmode="decimal"
            autocomplete="off"
            value={text()}
            onInput={(event) => {
              // Read when its number is typed, not when the page was opened; unless somebody said when.
              if (text() === '' && !timeGiven()) setAt(toLocalField(siteNowEpochMs(), zone()))
              setText(event.currentTarget.value)
            }}
          />
        </label>
        <label>
          Read at ({zone()})
          <input
            type="datetime-local"
            value={at()}
            onInput={(event) => {
              setTimeGiven(true)
              setAt(event.currentTarget.value)
            }}
          />
        </label>
      </div>
      <Show when={sensor()}>
        {(on) => (
          <p class="field-last">
            {lastSentence(earlier.values(), on(), zone())}
            <For each={earlier.remarks()}>{(remark) => <> {remark}</>}</For>
          </p>
        )}
      </Show>
      <Show when={judged()}>
        {(one) => (
          <div class="field-judged" role="status">
            <p>
              <strong>
                {withUnit(formatValue(one().value, sensor()?.decimals ?? 2), sensor()?.unit ?? '')}
              </strong>
            </p>
            <For each={one().remarks}>{(remark) => <p>{remark}</p>}</For>
            <For each={one().doubts}>{(doubt) => <p class="trouble">{doubt.sentence}</p>}</For>
          </div>
        )}
      </Show>
      <Show when={(judged()?.doubts.length ?? 0) > 0}>
        <label>
          Read again, and kept because
          <input value={because()} onInput={(event) => setBecause(event.currentTarget.value)} />
        </label>
      </Show>
      <FilesField files={files()} onChange={setFiles} />
      <SignedBy signing={signing} keep="Keep this reading" />
    </form>
  )
}

function expectedOf(sensor: GuidedSensor, atEpochMs: number) {
  const document = siteDocument()
  const point = siteLookup().pointById.get(sensor.point)
  return document
    ? expectedNow(document, {
        instrument: sensor.instrument,
        measure: sensor.measure,
        depthMetres: point && point.id !== sensor.instrument ? point.depthMetres : null,
        atEpochMs,
      })
    : null
}

/** Earlier values of a sensor: daily ones from what is kept, and those that wait on this device. */
function createEarlierValues(sensor: () => GuidedSensor | null) {
  const asked = createAnswer(() => {
    const series = siteLookup().seriesById.get(sensor()?.id ?? '')
    if (!series) return null
    const untilEpochMs = siteNowEpochMs()
    return {
      ...timeHistory({
        fromEpochMs: untilEpochMs - lookBackMs,
        untilEpochMs,
        widthPixels: 1,
        intervalMinutes: series.intervalMinutes,
        series: [series.series],
        resolution: 'day',
      }),
      of: series.id,
    }
  })
  const values = createMemo((): readonly EarlierValue[] => {
    const on = sensor()
    const answer = asked.answer()
    if (!on) return []
    const kept =
      answer && answer.question.of === on.id
        ? [...answer.columns.number('at_ms')].map((at, row) => ({
            atEpochMs: at,
            value: answer.columns.number('value')[row] as number,
          }))
        : []
    const here = readingsHere(knownEntries()).flatMap(({ sensor: of, raw, atEpochMs }) => {
      const value = of === on.id ? judgeReading(on, raw, atEpochMs, [], null).value : null
      return value === null ? [] : [{ atEpochMs, value }]
    })
    return [...kept.filter(({ value }) => Number.isFinite(value)), ...here].sort(
      (one, other) => one.atEpochMs - other.atEpochMs,
    )
  })
  return { values, remarks: asked.remarks }
}

function lastSentence(earlier: readonly EarlierValue[], sensor: GuidedSensor, zone: string): string {
  const last = earlier.at(-1)
  return last === undefined
    ? 'No earlier value is at hand.'
    : `Last value ${withUnit(formatValue(last.value, sensor.decimals), sensor.unit)}, ${formatInstant(last.atEpochMs, zone)}.`
}
