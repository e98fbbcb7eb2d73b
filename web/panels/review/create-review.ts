import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { batterySeriesOf } from '#domain/power/battery-series.ts'
import { reviewCaseOf } from '#domain/review/case/case-of.ts'
import { companionsOf } from '#domain/review/case/companions.ts'
import { loggersBeside } from '#domain/review/case/loggers-beside.ts'
import { type FoundOddity, findOddities, type Oddity } from '#domain/review/oddity.ts'
import { type EvidenceTable, weighCase } from '#domain/review/rank-causes.ts'
import type { ReviewCase, SingleReading } from '#domain/review/review-case.ts'
import type { ReviewStretch } from '#domain/review/verdict-again.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { knownHours, knownReadings } from '../../queries/review-readings.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { createAnswer } from '../create-answer.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'

const hourMs = 3_600_000
const dayMs = 24 * hourMs

/** A reading that was chosen, with what was read there as far as it is known. */
export interface SingleAsked {
  readonly atEpochMs: number
  readonly raw: SingleReading['raw']
}

/** So many days before the clock, or before so many hours earlier; null while there is no clock. */
export function stretchAtClock(days: number, hoursEarlier = 0): ReviewStretch | null {
  const at = clockEpochMs()
  if (at === null) return null
  // Whole hours: a clock that runs asks no more often.
  const asOfEpochMs = (Math.floor(at / hourMs) - hoursEarlier) * hourMs
  return { fromEpochMs: asOfEpochMs - days * dayMs, asOfEpochMs }
}

/** A series weighed over a stretch, as it was known at its end; each part null until it is known. */
export function createReview(
  series: () => Series | null,
  stretchAsked: () => ReviewStretch | null,
  oddity: () => Oddity | null,
  /** How the network was known at the end of the stretch. */
  network = createNetworkDocument(),
  /** One reading that is asked about by itself; null: none is. */
  single: () => SingleAsked | null = () => null,
) {
  const stretch = createMemo(stretchAsked, null, {
    equals: (one, other) =>
      one?.fromEpochMs === other?.fromEpochMs && one?.asOfEpochMs === other?.asOfEpochMs,
  })
  const companions = createMemo(() => {
    const [document, grid, subject, over] = [siteDocument(), siteGrid(), series(), stretch()]
    if (!document || !grid || !subject || !over) return null
    return companionsOf(document, subject, {
      network: network.document(),
      barriers: barriersAt(document.works, grid, over.asOfEpochMs),
      waterUnitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
    })
  })
  const battery = createMemo(() => {
    const [document, over, logger] = [siteDocument(), stretch(), companions()?.logger]
    if (!document || !over || !logger) return null
    return batterySeriesOf(document, over.asOfEpochMs).find((one) => one.logger === logger) ?? null
  })
  const hours = createAnswer(() => {
    const [beside, over] = [companions(), stretch()]
    if (!beside || !over) return null
    const placed = [...beside.same, ...beside.other, ...beside.byHand].map((one) => one.series.series)
    const drivers = beside.drivers.map((one) => one.series)
    const others = [...beside.ofLogger, ...beside.checksums, ...drivers].map((one) => one.series)
    const cells = battery()
    const all = new Set([...placed, ...others, ...(cells ? [cells.voltage] : [])])
    return knownHours({ ...over, series: [...all].sort((one, other) => one - other) })
  })
  const readings = createAnswer(() => {
    const [subject, over] = [series(), stretch()]
    return subject && over ? knownReadings({ ...over, series: subject.series }) : null
  })
  const waiting = () => hours.waiting() || readings.waiting() || network.waiting()

  const reviewed = createMemo((): ReviewCase | null => {
    const [document, subject, over, beside] = [siteDocument(), series(), stretch(), companions()]
    const [ofHours, ofReadings] = [hours.answer(), readings.answer()]
    if (!document || !subject || !over || !beside || !ofHours || !ofReadings || waiting()) return null
    const cells = battery()
    const last = cells ? lastOf(ofHours.columns, cells.voltage) : null
    return reviewCaseOf(
      document,
      { subject, companions: beside, ...over, single: single() },
      { hours: ofHours.columns, readings: ofReadings.columns },
      {
        network: network.document(),
        battery:
          cells && last && cells.limitVolts !== null
            ? { ...last, leastVolts: cells.limitVolts, series: cells.voltageId }
            : null,
        beside: beside.logger === null ? [] : loggersBeside(document, beside.logger),
      },
    )
  })
  const oddities = createMemo((): readonly FoundOddity[] => {
    const known = reviewed()
    return known ? findOddities(known) : []
  })
  const shown = () => oddities().find((one) => one.oddity === oddity()) ?? oddities()[0] ?? null
  const table = createMemo((): EvidenceTable | null => {
    const [known, odd] = [reviewed(), shown()]
    return known && odd ? weighCase(known, odd.oddity) : null
  })
  return {
    stretch,
    reviewed,
    oddities,
    shown,
    table,
    waiting,
    remarks: () => [
      ...new Set([...hours.remarks(), ...readings.remarks()]),
      ...(network.trouble() ? [network.trouble() as string] : []),
    ],
  }
}

function lastOf(
  columns: { readonly rows: number; readonly number: (name: string) => Float64Array },
  series: number,
): { readonly volts: number; readonly atEpochMs: number } | null {
  const row = columns.number('series').lastIndexOf(series)
  const [volts, atEpochMs] = ['value', 'at_ms'].map((name) => columns.number(name)[row])
  return volts === undefined || atEpochMs === undefined ? null : { volts, atEpochMs }
}
