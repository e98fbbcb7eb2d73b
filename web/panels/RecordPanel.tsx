import { createMemo, createSignal, For, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { RemarkedTrail, TrailSource, TrailStep } from '#contract/trail.ts'
import { uncertainText } from '#domain/reduction/uncertain-text.ts'
import { askServer, sentenceOf } from '../state/ask-server.ts'
import { reportTrouble } from '../state/notices.ts'
import { sitePath } from '../state/open-site.ts'
import { publishing } from '../state/publishing.ts'
import { selectedInstrument, selectedSeries } from '../state/selection.ts'
import { openSheet } from '../state/sheet.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { formatInstant, formatOffset, formatShortInstant } from '../ui/format-instant.ts'
import { withUnit } from '../ui/format-value.ts'
import { measureNames } from '../ui/kind-names.ts'
import { Later } from '../ui/Later.tsx'
import { latestOnly } from '../ui/latest-only.ts'
import { sync } from '../ui/sync.ts'
import { AlignmentPlaces } from './AlignmentPlaces.tsx'
import { ApprovalOf } from './ApprovalOf.tsx'
import type { AirShareProposal } from './air-share-draft.ts'
import { allowedWords } from './alerts/level-words.ts'
import { AlertsOfLevel, RecordAlerts } from './alerts/RecordAlerts.tsx'
import { RecordHistory } from './audit/RecordHistory.tsx'
import { BarometricEfficiency } from './BarometricEfficiency.tsx'
import { CalibrationsOf } from './CalibrationsOf.tsx'
import { LevelLines } from './LevelLines.tsx'
import { LevelText } from './LevelText.tsx'
import { ReadingRemarks } from './ReadingRemarks.tsx'
import { TraverseOf } from './TraverseOf.tsx'
import { meaningOfUncertainty } from './uncertainty-meaning.ts'
import { VerdictRemarks } from './VerdictRemarks.tsx'

/** The record of an instrument: what it is, its levels, and how the value at the clock was computed. */
export function RecordPanel() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const series = () => selectedSeries()[0] ?? null
  const levels = () => (siteDocument()?.triggerLevels ?? []).filter((level) => level.series === series()?.id)
  const stageName = (id: string) => siteDocument()?.stages.find((stage) => stage.id === id)?.name ?? id
  const [calibrations, setCalibrations] = createSignal<CalibrationList | null>(null)
  const [proposed, setProposed] = createSignal<AirShareProposal | null>(null)
  sync(
    () => series()?.id,
    () => setProposed(null),
  )
  const cautionsOf = (level: string) =>
    (calibrations()?.levelCautions ?? []).filter((caution) => caution.level === level)
  const points = () => {
    const { pointById } = siteLookup()
    return (selectedInstrument()?.points ?? []).flatMap((id) => pointById.get(id) ?? [])
  }
  return (
    <Show
      when={selectedInstrument()}
      fallback={<p class="waiting">Select an instrument to see its record.</p>}
    >
      {(instrument) => (
        <div class="record">
          <dl class="facts">
            <div>
              <dt>Positive means</dt>
              <dd>{series()?.positiveMeans ?? instrument().positiveMeans}</dd>
            </div>
            <Show when={instrument().axisBearingDegrees !== null}>
              <div>
                <dt>A-axis bearing</dt>
                <dd>{instrument().axisBearingDegrees}° from grid north</dd>
              </div>
            </Show>
            <Show when={instrument().grooveSentence}>
              {(sentence) => (
                <div>
                  <dt>Grooves</dt>
                  <dd>{sentence()}</dd>
                </div>
              )}
            </Show>
            <Show when={series()?.venting}>
              {(venting) => (
                <div>
                  <dt>Air pressure</dt>
                  <dd classList={{ trouble: venting().airStandsInValues }}>{venting().sentence}</dd>
                </div>
              )}
            </Show>
            <Show when={instrument().fixedEnd}>
              <div>
                <dt>Fixed end</dt>
                <dd>{instrument().fixedEnd}</dd>
              </div>
            </Show>
            <Show when={instrument().critical}>
              <div>
                <dt>Critical</dt>
                <dd>Its silence must itself be noticed</dd>
              </div>
            </Show>
            <Show when={instrument().note}>
              <div>
                <dt>Note</dt>
                <dd>{instrument().note}</dd>
              </div>
            </Show>
          </dl>
          <table class="plain">
            <caption>Measuring points</caption>
            <thead>
              <tr>
                <th scope="col">Point</th>
                <th scope="col">Depth, m</th>
                <th scope="col">Level, m</th>
                <th scope="col">E, m</th>
                <th scope="col">N, m</th>
                <th scope="col">Stratum</th>
              </tr>
            </thead>
            <tbody>
              <For each={points()}>
                {(point) => (
                  <tr>
                    <th scope="row">{point.id}</th>
                    <td>{point.depthMetres.toFixed(2)}</td>
                    <td>{point.levelMetres.toFixed(2).replace('-', '−')}</td>
                    <td>{point.eastingMetres.toFixed(2)}</td>
                    <td>{point.northingMetres.toFixed(2)}</td>
                    <td>
                      {point.stratum ?? '–'}
                      <Show when={point.retiredAtEpochMs}>
                        {(at) => <em> out of use since {formatShortInstant(at(), zone())}</em>}
                      </Show>
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
          <AlignmentPlaces points={points()} />
          <RecordHistory
            of="this instrument and its points"
            records={[
              { kind: 'instruments', keys: [instrument().id] },
              { kind: 'points', keys: instrument().points },
            ]}
          />
          <ApprovalOf instrument={instrument().id} />
          <Later
            when={true}
            load={async () => (await import('./field/EntriesAbout.tsx')).EntriesAbout}
            waiting="Fetching what was written along the works …"
            failed={(cause) => reportTrouble({ cause })}
          />
          <Later
            when={true}
            load={async () => (await import('./meetings/MinutesAbout.tsx')).MinutesAbout}
            waiting="Fetching what meetings wrote down …"
            failed={(cause) => reportTrouble({ cause })}
          />
          <VerdictRemarks
            about={(id) => selectedSeries().some((one) => one.id === id)}
            effects={['flag readings', 're-zero', 'replace the instrument', 'visit ordered']}
          />
          <RecordAlerts />
          <VerdictRemarks
            about={(id) => selectedSeries().some((one) => one.id === id)}
            effects={['level to be reviewed']}
          />
          <Show when={levels().length > 0}>
            <table class="plain">
              <caption>Trigger levels of {series()?.id}</caption>
              <thead>
                <tr>
                  <th scope="col">Level</th>
                  <th scope="col">Value</th>
                  <th scope="col">From</th>
                  <th scope="col">Response plan</th>
                </tr>
              </thead>
              <tbody>
                <For each={levels()}>
                  {(level) => (
                    <tr>
                      <th scope="row">{siteDocument()?.facts.levelNames[level.level - 1] ?? level.level}</th>
                      <td>
                        <LevelText level={level} unit={series()?.unit ?? ''} zone={zone()} />
                        <For each={cautionsOf(level.id)}>
                          {(caution) => <p class="trouble">{caution.sentence}</p>}
                        </For>
                      </td>
                      <td>
                        {formatShortInstant(level.validFrom, zone())}
                        <Show when={level.stage}>
                          {(stage) => <small> during {stageName(stage())}</small>}
                        </Show>
                      </td>
                      <td>
                        {level.action}{' '}
                        <small>
                          {level.owner}, within {allowedWords(level.withinMinutes)}
                        </small>
                        <AlertsOfLevel level={level.id} />
                      </td>
                    </tr>
                  )}
                </For>
              </tbody>
            </table>
            <div class="buttons">
              <button type="button" onClick={() => openSheet('levels')}>
                All levels, and changes of them
              </button>
            </div>
            <RecordHistory
              of="these trigger levels"
              records={[{ kind: 'triggerLevels', keys: levels().map(({ id }) => id) }]}
            />
          </Show>
          <Show when={series()} fallback={<p>It has no series of engineering values.</p>}>
            {(chosen) => (
              <>
                <TrailOf
                  id={chosen().id}
                  name={`${chosen().point}, ${measureNames[chosen().measure].toLowerCase()}`}
                />
                <Show when={instrument().kind === 'traversed-inclinometer'}>
                  <TraverseOf instrument={instrument()} />
                </Show>
                <ReadingRemarks series={chosen()} />
                <BarometricEfficiency
                  series={chosen()}
                  kind={instrument().kind}
                  calibrations={calibrations()}
                  propose={setProposed}
                />
                <CalibrationsOf series={chosen()} listed={setCalibrations} proposed={proposed()} />
              </>
            )}
          </Show>
        </div>
      )}
    </Show>
  )
}

/** How the value of a series at the clock was computed, from the raw reading on. */
function TrailOf(props: { id: string; name: string }) {
  const [trail, setTrail] = createSignal<RemarkedTrail | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<RemarkedTrail>(path, signal))
  // Asked again when values begin and end to be worked out anew, not at every progress between.
  const published = createMemo(() => `${publishing()?.behind} ${publishing()?.publishedRevision}`)
  sync(
    () => {
      published()
      const site = siteDocument()?.facts.id
      const at = clockEpochMs()
      if (site === undefined || at === null) return null
      const question = new URLSearchParams({ series: props.id, at: new Date(at).toISOString() })
      return sitePath(site, `/trail?${question}`)
    },
    (path) => {
      if (path === null) return
      // The clock may be running: a question is asked when it has stood for a moment.
      const timer = setTimeout(() => {
        ask(path).then(
          (answer) => {
            if (!answer) return
            setTrouble(null)
            setTrail(answer)
          },
          (cause) => {
            setTrail(null)
            setTrouble(sentenceOf(cause))
          },
        )
      }, 250)
      return () => clearTimeout(timer)
    },
  )
  return (
    <section class="trail" aria-label="How this was computed">
      <h3>How this was computed: {props.name}</h3>
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <Show
        when={trail()}
        fallback={
          <Show when={!trouble()}>
            <p class="waiting">Asking for the trail …</p>
          </Show>
        }
      >
        {(shown) => (
          <>
            <p class="trail-result">
              <strong>
                {withUnit(resultText(shown().value, shown().standardUncertainty), shown().unit)}
              </strong>
              <Show when={shown().standardUncertainty !== null}>
                {' '}
                ± {withUnit(uncertaintyText(shown().standardUncertainty), shown().unit)} (standard
                uncertainty)
              </Show>{' '}
              at {formatInstant(shown().atEpochMs, zone())} {formatOffset(shown().atEpochMs, zone())}
            </p>
            <Show when={shown().standardUncertainty}>
              {(one) => <p class="trail-meaning">{meaningOfUncertainty(one(), shown().unit)}</p>}
            </Show>
            <Show when={shown().changeSentence}>
              {(sentence) => <p class="trail-meaning">{sentence()}</p>}
            </Show>
            <Show when={shown().pending}>{(pending) => <p class="trouble">{pending().sentence}</p>}</Show>
            <For each={shown().cautions}>{(caution) => <p class="trouble">{caution}</p>}</For>
            <For each={shown().marks}>{(mark) => <p class="trouble">{mark}</p>}</For>
            <For each={shown().verdicts}>{(verdict) => <p>{verdict}</p>}</For>
            <For each={shown().sources}>{(source) => <SourceTrail source={source} zone={zone()} />}</For>
            <Show when={shown().derived.length > 0}>
              <h4>What was made of them</h4>
              <Steps steps={shown().derived} />
            </Show>
          </>
        )}
      </Show>
    </section>
  )
}

function SourceTrail(props: { source: TrailSource; zone: string }) {
  return (
    <details class="trail-source" open={props.source.role === 'reading'}>
      <summary>
        {roleNames[props.source.role]}: {props.source.series} ={' '}
        {withUnit(numberText(props.source.value), props.source.unit)}
      </summary>
      <dl class="facts">
        <div>
          <dt>Raw reading</dt>
          <dd>
            {withUnit(numberText(props.source.raw), props.source.rawUnit)}, {props.source.logger} channel{' '}
            {props.source.channel}
          </dd>
        </div>
        <div>
          <dt>Read, received</dt>
          <dd>
            {formatInstant(props.source.atEpochMs, props.zone)}, received{' '}
            {formatInstant(props.source.receivedAtEpochMs, props.zone)}
          </dd>
        </div>
        <div>
          <dt>File</dt>
          <dd>
            {props.source.fileName} <small class="hash">SHA-256 {props.source.sha256}</small>
            <Show when={props.source.fileRemark}>
              {(remark) => (
                <>
                  <p>{remark()}</p>
                  <LevelLines sha256={props.source.sha256} point={props.source.channel} />
                </>
              )}
            </Show>
          </dd>
        </div>
        <div>
          <dt>Calibration</dt>
          <dd>
            {props.source.calibration}, version {props.source.calibrationVersion}
            {props.source.certificate ? `, certificate ${props.source.certificate}` : ''}
          </dd>
        </div>
      </dl>
      <Steps steps={props.source.steps} />
      <Show when={props.source.ventingSentence}>{(sentence) => <p>{sentence()}</p>}</Show>
      <Show when={props.source.barometerSentence}>{(sentence) => <p>{sentence()}</p>}</Show>
      <For each={props.source.uncertaintySentences}>{(sentence) => <p>{sentence}</p>}</For>
    </details>
  )
}

function Steps(props: { steps: readonly TrailStep[] }) {
  return (
    <ol class="trail-steps">
      <For each={props.steps}>
        {(step) => (
          <li>
            <span>{step.sentence}</span>
            <code>{step.formula}</code>
            <span class="trail-numbers">
              {withUnit(numberText(step.input), step.inputUnit)} →{' '}
              {withUnit(resultText(step.output, step.standardUncertainty), step.outputUnit)}
              <Show when={step.standardUncertainty !== null}>
                {' '}
                ± {uncertaintyText(step.standardUncertainty)}
              </Show>
            </span>
          </li>
        )}
      </For>
    </ol>
  )
}

const roleNames: Readonly<Record<TrailSource['role'], string>> = {
  reading: 'Reading',
  temperature: 'Temperature',
  barometer: 'Barometer',
  member: 'Member',
}

/** The result with the digits that its uncertainty leaves a meaning, and one more. */
function resultText(value: number | null, standardUncertainty: number | null): string {
  if (value === null) return 'no value'
  return uncertainText(value, standardUncertainty)?.value ?? numberText(value)
}

const uncertaintyText = (standardUncertainty: number | null): string =>
  uncertainText(0, standardUncertainty)?.uncertainty ?? numberText(standardUncertainty)

/** Enough digits that the arithmetic checks by hand. */
function numberText(value: number | null): string {
  if (value === null) return 'no value'
  return String(Number(value.toPrecision(9))).replace('-', '−')
}
