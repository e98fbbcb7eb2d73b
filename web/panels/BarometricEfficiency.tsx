import { createSignal, createUniqueId, For, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { Series } from '#contract/site-document.ts'
import type { InstrumentKind } from '#domain/site/vocabulary.ts'
import type { Query } from '../engine/query.ts'
import { levelAndAir } from '../queries/level-and-air.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { sync } from '../ui/sync.ts'
import type { AirShareProposal } from './air-share-draft.ts'
import { airTermOver, barometerFor, barometerOver } from './air-term.ts'
import { createAnswer } from './create-answer.ts'
import { type EfficiencyAsked, EfficiencyResult } from './EfficiencyResult.tsx'
import { type IntervalTexts, lastThirtyDays, readInterval } from './efficiency-interval.ts'
import { efficiencyOfHours } from './efficiency-of-hours.ts'
import { meaningOfEfficiency } from './efficiency-sentences.ts'
import './efficiency.css'

/** Barometric efficiency of a piezometer's place, worked out of the readings of an interval when it is asked for. */
export function BarometricEfficiency(props: {
  series: Series
  kind: InstrumentKind
  /** Null while they are not known. */
  calibrations: CalibrationList | null
  propose: (proposal: AirShareProposal) => void
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [typed, setTyped] = createSignal<IntervalTexts | null>(null)
  const [asked, setAsked] = createSignal<Asking | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const form = createUniqueId()
  const forget = () => {
    setAsked(null)
    setTrouble(null)
  }
  sync(
    () => props.series.id,
    () => {
      setTyped(null)
      forget()
    },
  )
  const has = () =>
    (props.kind === 'piezometer' || props.kind === 'standpipe') &&
    (props.series.measure === 'pore-pressure' || props.series.measure === 'water-level') &&
    (props.series.unit === 'kPa' || props.series.unit === 'm') &&
    props.series.made !== true
  const texts = () => typed() ?? lastThirtyDays(clockEpochMs() ?? 0, zone())
  const choiceOf = (named: string | null) => {
    const { pointById } = siteLookup()
    const point = pointById.get(props.series.point)
    return point ? barometerFor(point, named, siteDocument()?.series ?? [], pointById) : null
  }
  const barometer = () =>
    props.calibrations ? choiceOf(props.calibrations.barometers.at(-1)?.barometer ?? null) : null
  const question = () => asked()?.question ?? null
  const answered = createAnswer(question)
  const ask = (event: SubmitEvent) => {
    event.preventDefault()
    forget()
    const list = props.calibrations
    const interval = readInterval(texts(), clockEpochMs() ?? 0, zone())
    if (!interval.ok) return setTrouble(sentencesOf(interval.issues))
    if (!list) return
    const { fromEpochMs, untilEpochMs } = interval.value
    const named = barometerOver(list, fromEpochMs, untilEpochMs, zone())
    if (!named.ok) return setTrouble(sentencesOf(named.issues))
    const chosen = choiceOf(named.value)
    if (!chosen) return
    const term = airTermOver(list, fromEpochMs, untilEpochMs, zone())
    if (!term.ok) return setTrouble(sentencesOf(term.issues))
    const rain = siteDocument()?.series.find(({ measure }) => measure === 'rainfall') ?? null
    const series = { level: props.series, barometer: chosen.series, rain }
    setAsked({
      ...interval.value,
      list,
      series,
      term: term.value,
      question: levelAndAir({
        ...interval.value,
        series: [props.series, chosen.series, ...(rain ? [rain] : [])],
      }),
    })
    announce('Barometric efficiency is being worked out')
  }
  const found = () => {
    const [on, answer] = [asked(), answered.answer()]
    if (!on || answer?.question !== on.question) return null
    return {
      on,
      of: efficiencyOfHours(answer.columns, on.series, siteDocument()?.verdicts ?? [], on.term),
    }
  }
  const field = (place: keyof IntervalTexts, label: string) => (
    <div class="layout-field">
      <label for={`${form}-${place}`}>{label}</label>
      <input
        id={`${form}-${place}`}
        type="date"
        required
        value={texts()[place]}
        onInput={(event) => setTyped({ ...texts(), [place]: event.currentTarget.value })}
      />
    </div>
  )
  return (
    <Show when={has()}>
      <details class="record-more efficiency">
        <summary>Barometric efficiency</summary>
        <p>{meaningOfEfficiency}</p>
        <Show when={props.calibrations} fallback={<p class="waiting">Its calibrations are not known yet.</p>}>
          <Show
            when={barometer()}
            fallback={<p class="trouble">The site has no barometer, so nothing can be compared with it.</p>}
          >
            {(chosen) => (
              <form onSubmit={ask} aria-label="Interval of the barometric efficiency">
                <p>{chosen().says}</p>
                <div class="efficiency-interval">
                  {field('from', 'First day')}
                  {field('until', 'Last day, up to the site clock')}
                  <button type="submit" class="primary">
                    Work it out
                  </button>
                  <Show when={asked()}>
                    <button type="button" onClick={forget}>
                      Leave it
                    </button>
                  </Show>
                </div>
              </form>
            )}
          </Show>
        </Show>
        <Show when={trouble()}>
          {(sentence) => (
            <p class="trouble" role="alert">
              {sentence()}
            </p>
          )}
        </Show>
        <Show when={asked()}>
          <Show when={answered.waiting()}>
            <p class="waiting">Reading the hours of the interval …</p>
          </Show>
          <For each={answered.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
        </Show>
        <Show when={found()}>
          {(known) => <EfficiencyResult {...known()} zone={zone()} propose={props.propose} />}
        </Show>
      </details>
    </Show>
  )
}

interface Asking extends EfficiencyAsked {
  readonly question: Query
}

const sentencesOf = (issues: readonly { readonly message: string }[]) =>
  issues.map(({ message }) => message).join(' ')
