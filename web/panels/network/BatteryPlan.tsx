import { createMemo, createSignal, For, Show } from 'solid-js'
import { meanMicroampsOverYears, secondsAsDearAsSleep, wattHoursOf } from '#domain/power/charge-budget.ts'
import { deratingSource } from '#domain/power/cold-derating.ts'
import { correctLife } from '#domain/power/corrected-life.ts'
import { factorsFromTests } from '#domain/radio/factor-mix.ts'
import { networkOverheadBytes } from '#domain/radio/time-on-air.ts'
import { lifeFigure } from '../../derived/figures/network-plan-figures.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { TitledFigure } from '../ground/AnalysisResult.tsx'
import { NumberField } from '../ground/NumberField.tsx'
import {
  type BatteryDraft,
  firstBatteryDraft,
  lifeOf,
  meanMicroampsOf,
  type Sending,
  uplinkOf,
} from './battery-draft.ts'
import { createOutlooks } from './create-outlooks.ts'
import { batteryWords } from './logger-words.ts'
import type { PlanDraft } from './plan-draft.ts'

/** Of a primary lithium cell, only to tell its charge as energy. */
const nominalVolts = 3.6

/** Fields of the budget: name, unit, least, most. */
const fields: readonly (readonly [keyof BatteryDraft, string, string, number, number])[] = [
  ['sensors', 'Sensors', '', 0, 200],
  ['sensorMillicoulombs', 'Charge to read a sensor once, mC', '', 0, 100_000],
  ['sleepMicroamps', 'Sleep, µA', '', 0.1, 100_000],
  ['transmitMilliamps', 'Transmitting, mA', '', 0, 2000],
  ['receiveMilliamps', 'Receiving, mA', '', 0, 2000],
  ['cellMilliampHours', 'One cell, mAh', '', 1, 1e6],
  ['usablePercent', 'Usable share', '%', 1, 100],
  ['selfDischargePercentPerYear', 'Lost in a year', '%', 0, 99],
  ['shelfLifeYears', 'Shelf life, years', '', 0.1, 40],
  ['coldestMonthDegC', 'Coldest month', 'Cel', -40, 60],
  ['uncertainPercent', 'Current may be wrong by', '%', 0, 500],
]

/** How long one to four cells last, and what the voltages measured here say of that. */
export function BatteryPlan(props: { plan: PlanDraft; slowestFactor: number }) {
  const [draft, setDraft] = createSignal<BatteryDraft>(firstBatteryDraft)
  const [like, setLike] = createSignal('')
  const cells = createOutlooks()
  const loggers = () => (siteDocument()?.loggers ?? []).filter(({ kind }) => kind === 'logger')
  const chosen = createMemo(() => loggers().find(({ id }) => id === like()) ?? null)
  const factorOf = createMemo(
    () => new Map(factorsFromTests(siteDocument()?.coverageTests ?? []).map((one) => [one.logger, one])),
  )
  const sending = createMemo((): Sending => {
    const logger = chosen()
    return {
      intervalMinutes: logger?.intervalMinutes ?? props.plan.intervalMinutes,
      spreadingFactor: factorOf().get(like())?.spreadingFactor ?? props.slowestFactor,
      payloadBytes: props.plan.applicationBytes + networkOverheadBytes,
      sendings: props.plan.sendings,
    }
  })
  const sensorsOf = (logger: string) =>
    Object.values(siteDocument()?.wiredTo ?? {}).filter((wired) => wired.startsWith(`${logger} /`)).length
  const takeFrom = (logger: string) => {
    setLike(logger)
    if (logger !== '') setDraft((before) => ({ ...before, sensors: sensorsOf(logger) }))
  }
  const life = createMemo(() => lifeOf(draft(), chosen()?.cells ?? 2, sending()))
  const corrected = createMemo(() => {
    const [found, logger] = [life(), chosen()]
    if (!found.ok || !logger) return null
    return correctLife(found.value.low, found.value.high, cells.outlooks()?.get(logger.id)?.left ?? null)
  })
  const title = () =>
    `Life of one to four cells with ${draft().sensors} sensors at factor ${sending().spreadingFactor}, ${draft().coldestMonthDegC} °C${chosen() ? `, as ${like()}` : ''}`
  return (
    <section class="network-findings" aria-label="Battery life">
      <h2>Battery life</h2>
      <div class="ground-fields">
        <label class="ground-field">
          As a logger of this site
          <select value={like()} onChange={(event) => takeFrom(event.currentTarget.value)}>
            <option value="">None: as planned above</option>
            <For each={loggers()}>
              {({ id, cells: count, intervalMinutes }) => (
                <option value={id}>
                  {id}, {count ?? 'unknown'} cells, {intervalMinutes ?? 'unknown'} min
                </option>
              )}
            </For>
          </select>
        </label>
        <For each={fields}>
          {([name, label, unit, least, mostAllowed]) => (
            <NumberField
              name={label}
              unit={unit}
              value={draft()[name]}
              least={least}
              most={mostAllowed}
              onChange={(value) => setDraft((before) => ({ ...before, [name]: value }))}
            />
          )}
        </For>
      </div>
      <p>
        Mean current {formatValue(meanMicroampsOf(draft(), sending()), 0)} µA at one reading in{' '}
        {sending().intervalMinutes} min; one uplink takes {formatValue(uplinkOf(draft(), sending()), 1)} mC,
        as much as sleep does in{' '}
        {formatAge(1000 * secondsAsDearAsSleep(uplinkOf(draft(), sending()), draft().sleepMicroamps))}. A cell
        holds {formatValue(wattHoursOf(draft().cellMilliampHours, nominalVolts), 0)} Wh at {nominalVolts} V;
        on two of them a logger that is to last its shelf life may draw{' '}
        {formatValue(
          meanMicroampsOverYears(
            2 * draft().cellMilliampHours * (draft().usablePercent / 100),
            draft().shelfLifeYears,
          ),
          0,
        )}{' '}
        µA before cold and loss. The currents and charges are examples and no product’s: put in what was
        measured on one of yours.
      </p>
      <div class="ground-figures">
        <TitledFigure
          shown={() =>
            lifeFigure(
              (count, intervalMinutes) => lifeOf(draft(), count, { ...sending(), intervalMinutes }),
              sending().intervalMinutes,
              draft().shelfLifeYears,
              { title: title(), selected: null, timeZone: siteDocument()?.facts.timeZone ?? 'UTC' },
            )
          }
        />
      </div>
      <h3>Corrected by the measured voltage</h3>
      <For each={cells.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={corrected()}
        fallback={<p>Choose a logger of this site to hold its budget against its measured voltage.</p>}
      >
        {(found) => (
          <p>
            <strong>{like()}</strong> ({chosen()?.cells ?? 'unknown number of'} cells):{' '}
            {batteryWords(
              cells.outlooks()?.get(like()) ?? null,
              cells.loggers().find(({ logger }) => logger === like())?.limitVolts ?? null,
            ).join(', ')}
            . {found().says}
          </p>
        )}
      </Show>
      <details>
        <summary>How the life is reckoned</summary>
        <ul>
          <li>
            Charge balance: sleep, sensors and uplinks with two receive windows (structure as in Casals et al.
            2017), loss on the shelf alongside, ended at the shelf life whatever the charge says.
          </li>
          <li>{deratingSource}</li>
          <li>
            The band is the current wrong by the stated share either way. Loss in a year and usable share:
            common practice, no published source; take them from the cell that was tested.
          </li>
          <li>
            A cell that slept long may sag at its first transmission (passivation): the budget does not know
            it.
          </li>
        </ul>
      </details>
    </section>
  )
}
