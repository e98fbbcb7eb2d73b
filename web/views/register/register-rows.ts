import type { ListedAlert } from '#contract/alerts.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import type { InstrumentKind, Measure } from '#domain/site/vocabulary.ts'
import { byUrgency } from '../../derived/alerts/alert-groups.ts'
import { placedAlerts } from '../../derived/alerts/alert-marks.ts'
import { responseOf, sinceEpochMs } from '../../derived/alerts/response-state.ts'
import { notesOfLast } from '../../derived/notes-of-value.ts'
import { foundOfValues } from '../../derived/verdict-on-value.ts'
import { readableDecimals } from '../../ui/format-value.ts'
import { concernOf, isSilent, type Standing, standingOf } from '../../ui/state-scale.ts'

/** One line of the register: a series of a measuring point as it stands at the clock. */
export interface RegisterRow {
  /** point/measure */
  readonly id: string
  readonly point: string
  readonly instrument: string
  readonly kind: InstrumentKind
  readonly measure: Measure
  readonly unit: string
  /** Decimals that suit its uncertainty. */
  readonly decimals: number
  readonly standing: Standing
  /** No current data, whatever level it stands at. */
  readonly silent: boolean
  readonly value: number | null
  /** Time since its last reading; null: no reading at all. */
  readonly ageMs: number | null
  readonly share: number | null
  readonly logger: string
  readonly critical: boolean
  /** What persons found of its value and automatic checks marked about it, in a few words each. */
  readonly marks: readonly string[]
  /** A value of it taken by then came later; in words. Empty: none did, or it is not told. */
  readonly later: string
  /** That newer data contradict a verdict on it; empty where they do not, or it is not told. */
  readonly contradicted: string
  /** Its open alerts, what presses most first; null: not known. */
  readonly alerts: readonly ListedAlert[] | null
}

export const registerColumns = [
  'point',
  'measure',
  'value',
  'standing',
  'alert',
  'share',
  'age',
  'logger',
] as const
export type RegisterColumn = (typeof registerColumns)[number]

export interface RegisterOrder {
  readonly column: RegisterColumn
  readonly descending: boolean
}

/** Every series; what is out of use at that instant stands as that, whatever it last said. States null: not worked out yet; alerts null: not known. */
export function registerRows(
  document: SiteDocument,
  states: ReadonlyMap<number, SeriesState> | null,
  atEpochMs: number,
  alerts: readonly ListedAlert[] | null = null,
  laterOf: (series: number) => string = () => '',
  contradictedOf: (series: string) => string = () => '',
): readonly RegisterRow[] {
  const alertsOf = alerts && groupBy(placedAlerts(alerts), ({ series }) => series)
  const points = new Map(document.points.map((point) => [point.id, point]))
  const instruments = new Map(document.instruments.map((instrument) => [instrument.id, instrument]))
  const found = foundOfValues(document)
  const ends = seriesEnds(document)
  return document.series.flatMap((series) => {
    const point = points.get(series.point)
    // A series made from a whole instrument bears the instrument's name.
    const owner = point ?? instruments.get(series.point)
    if (!owner) return []
    const isOut = (ends.get(series.series) ?? Number.POSITIVE_INFINITY) <= atEpochMs
    const state = states?.get(series.series)
    const readAt = state?.atEpochMs ?? null
    return {
      id: series.id,
      point: owner.id,
      instrument: point?.instrument ?? owner.id,
      kind: owner.kind,
      measure: series.measure,
      unit: series.unit,
      decimals: readableDecimals(series.decimals, series.standardUncertainty),
      standing: isOut ? 'out-of-use' : states === null ? 'unknown' : standingOf(state),
      silent: !isOut && states !== null && isSilent(state),
      value: state?.value ?? null,
      ageMs: readAt === null ? null : atEpochMs - readAt,
      share: isOut ? null : (state?.shareOfFirstLevel ?? null),
      logger: document.wiredTo[series.id] ?? '',
      critical: series.critical,
      marks: [found(series.id, readAt), ...notesOfLast(state)].filter((one) => one !== ''),
      later: laterOf(series.series),
      contradicted: contradictedOf(series.id),
      alerts: alertsOf && [...(alertsOf.get(series.id) ?? [])].sort(byUrgency),
    }
  })
}

/** Rows that pass the filters; text is looked for in point, measure and logger, without regard to case. */
export function filterRows(
  rows: readonly RegisterRow[],
  filters: {
    readonly hiddenKinds: readonly InstrumentKind[]
    readonly standings: readonly Standing[]
    readonly text: string
    readonly openAlerts?: boolean
  },
): readonly RegisterRow[] {
  const wanted = filters.text.trim().toLowerCase()
  return rows.filter(
    (row) =>
      !filters.hiddenKinds.includes(row.kind) &&
      // Where alerts are not known no row is taken for one without: an empty list would say that there are none.
      (filters.openAlerts !== true || row.alerts === null || row.alerts.length > 0) &&
      (filters.standings.length === 0 ||
        filters.standings.includes(row.standing) ||
        (row.silent && filters.standings.includes('late'))) &&
      (wanted === '' || `${row.id} ${row.logger}`.toLowerCase().includes(wanted)),
  )
}

/** Rows in an order; equal ones by name, and what has no value last in either direction. */
export function sortRows(rows: readonly RegisterRow[], order: RegisterOrder): readonly RegisterRow[] {
  const sign = order.descending ? -1 : 1
  return [...rows].sort((left, right) => {
    const [a, b] = [keyOf(left, order.column), keyOf(right, order.column)]
    if (a === null || b === null) return a === b ? byName(left, right) : a === null ? 1 : -1
    const difference = typeof a === 'string' ? names.compare(a, String(b)) : a - Number(b)
    return difference === 0 ? byName(left, right) : sign * difference
  })
}

const names = new Intl.Collator('en', { numeric: true })
const byName = (left: RegisterRow, right: RegisterRow) => names.compare(left.id, right.id)

function keyOf(row: RegisterRow, column: RegisterColumn): string | number | null {
  switch (column) {
    case 'point':
      return row.point
    case 'measure':
      return row.measure
    case 'value':
      return row.value
    case 'standing':
      return concernOf(row.standing)
    case 'alert':
      return urgencyOfRow(row)
    case 'share':
      return row.share
    case 'age':
      // A series that never gave a reading is older than any other.
      return row.ageMs ?? Number.MAX_SAFE_INTEGER
    case 'logger':
      return row.logger === '' ? null : row.logger
  }
}

/** Those that nobody took up first, then older ones; null where there is none. */
function urgencyOfRow({ alerts }: RegisterRow): number | null {
  const [first] = alerts ?? []
  if (!first) return null
  const steps = { nobody: 3, 'taken-up': 2, verified: 1, closed: 0 }[responseOf(first)]
  return steps * 1e15 - sinceEpochMs(first)
}
