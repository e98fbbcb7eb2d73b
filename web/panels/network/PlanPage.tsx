import { createMemo, createSignal, For } from 'solid-js'
import { alohaThroughput, loadForSuccess, loadOfMostThroughput } from '#domain/radio/aloha.ts'
import { dutyBands868, dutySource, packetsPerHour } from '#domain/radio/duty-cycle.ts'
import { factorsFromTests, goodShare } from '#domain/radio/factor-mix.ts'
import { mostLoggers, mostSendersOfMix, planNetwork } from '#domain/radio/network-plan.ts'
import { chanceOfOverlap, secondsUntilApart } from '#domain/radio/repeated-meetings.ts'
import { networkOverheadBytes } from '#domain/radio/time-on-air.ts'
import { successFigure } from '../../derived/figures/network-plan-figures.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { TitledFigure } from '../ground/AnalysisResult.tsx'
import { NumberField } from '../ground/NumberField.tsx'
import '../ground/ground.css'
import { BatteryPlan } from './BatteryPlan.tsx'
import {
  bandOf,
  designOf,
  type FactorChoice,
  factorChoices,
  factorsOf,
  firstPlanDraft,
  type PlanDraft,
} from './plan-draft.ts'
import './condition.css'

const factorNames: Readonly<Record<FactorChoice, string>> = {
  tests: 'As this site’s coverage tests say',
  even: '7 to 12 evenly',
  '7': 'All at 7',
  '8': 'All at 8',
  '9': 'All at 9',
  '10': 'All at 10',
  '11': 'All at 11',
  '12': 'All at 12',
}

/** Drift between two clocks with which meetings of loggers at fixed phases are told. */
const usualDriftSecondsPerDay = 2

/** What loggers on one gateway would do to each other and to the band, and how long their cells last. */
export function PlanPage() {
  const [draft, setDraft] = createSignal<PlanDraft>(firstPlanDraft)
  const change = (part: Partial<PlanDraft>) => setDraft((before) => ({ ...before, ...part }))
  const factors = createMemo(() => factorsOf(draft().factors, siteDocument()))
  const design = createMemo(() => designOf(draft(), factors()))
  const plan = createMemo(() => planNetwork(design()))
  const wanted = () => draft().wantedPercent / 100
  const most = createMemo(() => mostLoggers(design(), wanted()))
  const mostOnPaper = () => mostSendersOfMix(design(), loadForSuccess(wanted()))
  const tested = () => factorsFromTests(siteDocument()?.coverageTests ?? []).length
  const percent = (share: number) => `${formatValue(100 * share, share > 0.99 && share < 1 ? 2 : 1)} %`
  const over = () => plan().factors.filter((load) => !load.withinDuty)
  const slowest = () => plan().factors.at(-1)
  const options = () => ({
    title: `Readings that arrive of loggers every ${draft().intervalMinutes} min on ${draft().channels} channels`,
    selected: null,
    timeZone: siteDocument()?.facts.timeZone ?? 'UTC',
  })
  return (
    <section class="network-page" aria-label="Plan">
      <h2>Loggers on one gateway</h2>
      <div class="ground-fields">
        <NumberField
          name="Loggers"
          unit=""
          value={draft().loggers}
          least={1}
          most={100_000}
          step={1}
          onChange={(loggers) => change({ loggers: Math.round(loggers) })}
        />
        <NumberField
          name="Minutes between readings"
          unit=""
          value={draft().intervalMinutes}
          least={0.1}
          most={1440}
          onChange={(intervalMinutes) => change({ intervalMinutes })}
        />
        <NumberField
          name="Channels"
          unit=""
          value={draft().channels}
          least={1}
          most={64}
          step={1}
          onChange={(channels) => change({ channels: Math.round(channels) })}
        />
        <NumberField
          name="Bytes of a reading"
          unit=""
          value={draft().applicationBytes}
          least={1}
          most={222}
          step={1}
          onChange={(bytes) => change({ applicationBytes: Math.round(bytes) })}
        />
        <label class="ground-field">
          Spreading factors
          <select
            value={draft().factors}
            onChange={(event) =>
              change({ factors: factorChoices[event.currentTarget.selectedIndex] ?? 'even' })
            }
          >
            <For each={factorChoices}>{(one) => <option value={one}>{factorNames[one]}</option>}</For>
          </select>
        </label>
        <NumberField
          name="Each reading is sent, times"
          unit=""
          value={draft().sendings}
          least={1}
          most={5}
          step={1}
          onChange={(sendings) => change({ sendings: Math.round(sendings) })}
        />
        <NumberField
          name="Link delivers"
          unit="%"
          value={draft().linkPercent}
          least={1}
          most={100}
          onChange={(linkPercent) => change({ linkPercent })}
        />
        <label class="ground-field">
          Band
          <select value={draft().bandId} onChange={(event) => change({ bandId: event.currentTarget.value })}>
            <For each={dutyBands868}>
              {(band) => (
                <option value={band.id}>
                  {band.fromMhz} to {band.untilMhz} MHz, {formatValue(100 * band.dutyShare, 1)} %
                </option>
              )}
            </For>
          </select>
        </label>
        <NumberField
          name="Wanted to arrive"
          unit="%"
          value={draft().wantedPercent}
          least={1}
          most={99.99}
          onChange={(wantedPercent) => change({ wantedPercent })}
        />
      </div>
      <div class="network-findings" aria-live="polite">
        <p>
          <strong>{percent(plan().readingSuccess)}</strong> of the readings arrive: of{' '}
          {formatValue(plan().readingsADay, 0)} a day <strong>{formatValue(plan().missedADay, 0)}</strong> are
          missed, {formatValue(plan().missedADay / draft().loggers, 1)} a logger.
        </p>
        <p>
          At most <strong>{most() >= 100_000 ? 'more than 100 000' : most()}</strong> loggers keep{' '}
          {draft().wantedPercent} % at every factor of this mix ({mostOnPaper()} by the approximation for very
          many).{' '}
          {most() < draft().loggers
            ? `The ${draft().loggers} asked for are too many: longer intervals, more channels, faster factors or another gateway.`
            : ''}
        </p>
        <p>
          A channel and factor carries most, {percent(alohaThroughput(loadOfMostThroughput))} of its time,
          with {mostSendersOfMix(design(), loadOfMostThroughput)} loggers of this mix; beyond that each
          further logger lowers what arrives in all.
        </p>
        <p>
          {over().length === 0
            ? `Every logger keeps within the band’s share of an hour: at the slowest factor it is on the air for ${formatValue(100 * (slowest()?.onAirShare ?? 0), 2)} % of the time, ${formatValue(100 * bandOf(draft().bandId).dutyShare, 1)} % are allowed.`
            : `Against the band’s rules: at ${over()
                .map(
                  (load) =>
                    `factor ${load.spreadingFactor} one reading in ${formatValue(load.shortestIntervalSeconds / 60, 1)} min is the most`,
                )
                .join('; ')}.`}
        </p>
      </div>
      <section class="logger-scroll" aria-label="By spreading factor" tabindex="0">
        <table class="logger-table">
          <thead>
            <tr>
              <For
                each={[
                  'Factor',
                  'Loggers',
                  'On the air, ms',
                  'Share of time',
                  'Most packets an hour',
                  'Packet meets none',
                  'Reading arrives',
                  'Missed a day, each',
                  'Six missed in a row, a day',
                  'Not expected in 30 days',
                ]}
              >
                {(heading) => <th scope="col">{heading}</th>}
              </For>
            </tr>
          </thead>
          <tbody>
            <For each={plan().factors}>
              {(load) => (
                <tr>
                  <th scope="row">{load.spreadingFactor}</th>
                  <td>{formatValue(load.loggers, 0)}</td>
                  <td>{formatValue(1000 * load.onAirSeconds, 1)}</td>
                  <td>
                    {formatValue(100 * load.onAirShare, 3)} %{load.withinDuty ? '' : ' ✕ above the limit'}
                  </td>
                  <td>{packetsPerHour(load.onAirSeconds, design().dutyShare)}</td>
                  <td>{percent(load.packetSuccess)}</td>
                  <td>{percent(load.readingSuccess)}</td>
                  <td>{formatValue(load.missedADayPerLogger, 1)}</td>
                  <td>{load.sixMissedInARow < 1e-4 ? '< 0.01 %' : percent(load.sixMissedInARow)}</td>
                  <td>
                    {Number.isFinite(load.gapNotExpectedReadings)
                      ? `a gap of ${formatAge(load.gapNotExpectedReadings * draft().intervalMinutes * 60_000)}`
                      : 'nothing arrives'}
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
      <div class="ground-figures">
        <TitledFigure shown={() => successFigure(design(), wanted(), most(), options())} />
      </div>
      <BatteryPlan plan={draft()} slowestFactor={slowest()?.spreadingFactor ?? 12} />
      <details open>
        <summary>What is assumed, and where it comes from</summary>
        <ul>
          <li>
            {draft().factors === 'tests' && tested() > 0
              ? `Mix of factors: of ${tested()} loggers with a coverage test here, the fastest factor at which the newest test delivered ${100 * goodShare} %, else the best one.`
              : draft().factors === 'tests'
                ? 'This site has no coverage tests at loggers: the factors are split evenly instead.'
                : 'The factors are as chosen, not as measured here.'}
          </li>
          <li>
            Time on air: formula of the modulation as in Bor and Roedig (2017) and Casals et al. (2017), 125
            kHz, rate 4/5, preamble of 8, header, checksum, low-rate optimisation where a symbol is longer
            than 16 ms; the network adds {networkOverheadBytes} bytes to a reading.
          </li>
          <li>
            Collisions: each logger sends at phases of its own on a channel drawn for each packet, and listens
            to none (exact for a finite number; pure ALOHA, Abramson 1970, for very many). Any overlap loses
            both packets, which is pessimistic: the stronger one often survives. Factors are taken as deaf to
            each other, and a gateway hears no more than about eight packets at once and none while it sends
            itself: that is optimistic.
          </li>
          <li>
            Loggers that keep their phase instead meet again and again: at factor {slowest()?.spreadingFactor}{' '}
            a logger overlaps another with a chance of{' '}
            {percent(
              chanceOfOverlap(
                slowest()?.loggers ?? 0,
                slowest()?.onAirSeconds ?? 0,
                60 * draft().intervalMinutes,
              ),
            )}
            , and with clocks {usualDriftSecondsPerDay} s a day apart it lasts{' '}
            {formatAge(1000 * secondsUntilApart(slowest()?.onAirSeconds ?? 0, usualDriftSecondsPerDay))}. Have
            phases drawn at random.
          </li>
          <li>
            Losses in a row are reckoned as if each came by itself: real ones come in bursts, so gaps are
            longer.
          </li>
          <li>Share of an hour: {dutySource}</li>
        </ul>
      </details>
    </section>
  )
}
