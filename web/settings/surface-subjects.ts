import type { Series } from '#contract/site-document.ts'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import { siteWater } from '#domain/site/site-water.ts'
import {
  type ComputedString,
  computedStrings,
  pointsOfStrings,
} from '../derived/ground/computed-settlement.ts'
import { pressuresAt, pressureTips } from '../derived/ground/string-pressures.ts'
import { otherUnitsSentence, verdictSentence } from '../derived/said-of-values.ts'
import {
  pointUncertaintySentence,
  type SettlementPoint,
  settlementPoints,
  settlementSeries,
} from '../derived/settlement-points.ts'
import type { SurfaceSubject } from '../derived/surface-drawing.ts'
import { strataOfTips, waterPoints } from '../derived/water-points.ts'
import type { Columns } from '../engine/columns.ts'
import type { Query } from '../engine/query.ts'
import { lastOf } from '../queries/often-read.ts'
import { settlementAt } from '../queries/settlement-at.ts'
import { type Analysis, analysis } from '../state/analysis.ts'
import { playing } from '../state/playback.ts'
import { siteDocument } from '../state/site-document.ts'
import { surfaceStratum } from '../state/surface-choice.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** What is wanted on the plan, and when. */
export interface Wanted {
  readonly of: 'settlement' | 'change' | 'water' | 'computed'
  readonly atEpochMs: number
  readonly sinceEpochMs: number | null
  /** Of a piezometric level; left out or null: the one chosen for the plan. */
  readonly stratum?: string | null
}

/** What a surface is of, with its points. */
export interface Subject extends SurfaceSubject {
  readonly points: readonly GroundPoint[]
  readonly unit: string
  /** Said after the surface's own note; null: nothing. */
  readonly afterNote: string | null
  /** Settlement computed from pressures, and the points it is held against; null: another subject. */
  readonly computed: {
    readonly strings: readonly ComputedString[]
    readonly measured: readonly SettlementPoint[]
  } | null
}

/** Points of what is wanted, asked of the engine; null before the site is there. */
export const subjectOf = (wanted: Wanted): Promise<Subject | null> =>
  ({ water: waterAt, computed: computedAt, settlement: settlementsAt, change: settlementsAt })[wanted.of](
    wanted,
  )

async function settlementsAt({ atEpochMs, sinceEpochMs }: Wanted): Promise<Subject | null> {
  const [document, on] = [siteDocument(), analysis()]
  if (!document || !on) return null
  const series = settlementSeries(document.series, document.points)
  const { columns } = await askWhole(on, settlementAt({ atEpochMs, ...asked(series), sinceEpochMs }))
  const change = sinceEpochMs !== null
  const points = settlementPoints(columns, series, document, atEpochMs, change)
  const zone = document.facts.timeZone
  return {
    points: points.map(({ valueMm, standardUncertaintyMm, ...rest }) => ({
      ...rest,
      value: valueMm,
      standardUncertainty: standardUncertaintyMm,
    })),
    unit: 'mm',
    what: change
      ? `Change of settlement from ${formatShortInstant(sinceEpochMs, zone)} to ${formatShortInstant(atEpochMs, zone)}`
      : `Settlement at ${formatShortInstant(atEpochMs, zone)}`,
    sense: 'positive is settlement',
    colouring: 'movement',
    computed: null,
    afterNote: [
      pointUncertaintySentence(points, change),
      verdictSentence(
        document,
        series.map(({ id }) => id),
        atEpochMs,
      ),
      otherUnitsSentence(document, 'settlement', 'mm'),
    ]
      .filter((one) => one !== null)
      .join(' '),
  }
}

async function computedAt({ atEpochMs, sinceEpochMs }: Wanted): Promise<Subject | null> {
  const [document, on] = [siteDocument(), analysis()]
  if (!document || !on || sinceEpochMs === null) return null
  const tips = pressureTips(document, atEpochMs)
  const { columns } = await askWhole(
    on,
    settlementAt({ atEpochMs, ...asked(tips.map(({ series }) => series)), sinceEpochMs }),
  )
  const { unitWeightKnPerM3, sentence } = siteWater(document.facts)
  const strings = computedStrings(document, pressuresAt(columns, tips, atEpochMs), unitWeightKnPerM3)
  const series = settlementSeries(document.series, document.points)
  const levelled = await askWhole(on, settlementAt({ atEpochMs, ...asked(series), sinceEpochMs }))
  const zone = document.facts.timeZone
  return {
    points: pointsOfStrings(strings),
    unit: 'mm',
    what: `Settlement computed from pore pressures, ${formatShortInstant(sinceEpochMs, zone)} to ${formatShortInstant(atEpochMs, zone)}`,
    sense: 'positive is settlement',
    colouring: 'movement',
    afterNote: sentence,
    computed: {
      strings,
      measured: settlementPoints(levelled.columns, series, document, atEpochMs, true),
    },
  }
}

async function waterAt({ atEpochMs, stratum: wantedStratum = null }: Wanted): Promise<Subject | null> {
  const [document, on] = [siteDocument(), analysis()]
  if (!document || !on) return null
  const tips = pressureTips(document, atEpochMs)
  const strata = strataOfTips(tips)
  const stratum = strata.find((one) => one === (wantedStratum ?? surfaceStratum())) ?? strata.at(-1) ?? null
  const { columns } = await askWhole(
    on,
    settlementAt({ atEpochMs, ...asked(tips.map(({ series }) => series)), sinceEpochMs: atEpochMs }),
  )
  const { unitWeightKnPerM3, sentence } = siteWater(document.facts)
  return {
    points: waterPoints(columns, tips, stratum, unitWeightKnPerM3, atEpochMs),
    unit: 'm',
    what: `Piezometric level in ${stratum ?? 'no stratum'} at ${formatShortInstant(atEpochMs, document.facts.timeZone)}`,
    sense: document.facts.verticalDatum.replace(/\.$/, ''),
    colouring: 'level',
    computed: null,
    afterNote: [
      sentence,
      verdictSentence(
        document,
        tips.filter(({ point }) => point.stratum === stratum).map(({ series }) => series.id),
        atEpochMs,
      ),
      otherUnitsSentence(document, 'pore-pressure', 'kPa'),
    ]
      .filter((one) => one !== null)
      .join(' '),
  }
}

/** While the clock runs hours do: its readings would have to be fetched for every step. */
const asked = (series: readonly Series[]) => {
  const last = lastOf(series)
  return playing() ? { series: last.series } : last
}

/** A surface over missing months would be drawn as if nothing had been measured there. */
async function askWhole(on: Analysis, query: Query): Promise<{ readonly columns: Columns }> {
  const { columns, missing } = await on.keeper.ask(query)
  if (missing[0]) throw missing[0]
  return { columns }
}
