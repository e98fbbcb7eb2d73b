import type { PlacedInstrument, PlacedPoint, Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import type { InstrumentKind } from '#domain/site/vocabulary.ts'
import { concernOf, isSilent, type Standing, standingOf } from '../ui/state-scale.ts'

/** One symbol on the plan: an instrument, or the part of it that shares one plan position. */
export interface PlanSymbol {
  /** Name of the instrument, or of the measuring point where an instrument has several places. */
  readonly id: string
  readonly instrument: string
  readonly kind: InstrumentKind
  readonly longitude: number
  readonly latitude: number
  /** Measuring points gathered here, worst first. */
  readonly points: readonly string[]
  /** The worst among them; no current data counts as worse than within levels. */
  readonly standing: Standing
  /** Its instrument was declared critical; left out: not. */
  readonly critical?: boolean
  readonly partLate: boolean
  /** None of it has current data, whatever level it stands at. */
  readonly allLate: boolean
  /** Of the channels that it stands for, those with current data and without a level on their value. */
  readonly noLevel: number
  readonly channels: number
  /** Of what would be judged here, channels that are out of use, and since when the first of them is; null: none. */
  readonly outOfUse: number
  readonly outOfUseSinceEpochMs: number | null
  /** Highest share of a first trigger level used, of points with current data. */
  readonly share: number | null
  /** Age of the oldest last reading among its late points, else of the oldest of all; null: none at all. */
  readonly ageMs: number | null
  /** A value of it that had been taken came later than the instant, counted or not. */
  readonly cameLater: boolean
}

export interface PlanSymbolInput {
  readonly instruments: readonly PlacedInstrument[]
  readonly points: readonly PlacedPoint[]
  readonly series: readonly Series[]
  /** Null: not worked out yet for this instant. */
  readonly states: ReadonlyMap<number, SeriesState> | null
  readonly atEpochMs: number
  /** Numbers of series whose newest value came later than the instant; null: not told. */
  readonly later?: ReadonlyMap<number, unknown> | null
}

const samePlaceDegrees = 5e-6

/**
 * Gathers measuring points that share a plan position (half a metre), or a hole, into one symbol an
 * instrument. What is out of use at that instant (`seriesEnds`) is not judged: where a symbol would stand for nothing else
 * it says so, else it is counted. Least concern first: the worst is drawn on top, and what is out of use lies below all.
 */
export function gatherSymbols(input: PlanSymbolInput): readonly PlanSymbol[] {
  const pointById = new Map(input.points.map((point) => [point.id, point]))
  const ends = seriesEnds(input)
  return input.instruments
    .flatMap((instrument) => {
      const points = instrument.points.flatMap((id) => pointById.get(id) ?? [])
      const groups = groupByPlace(points)
      return groups.map((group) => {
        const isPart = groups.length > 1
        const members = membersOf(instrument, group, isPart, input, ends)
        const inUse = members.filter(({ endEpochMs }) => endEpochMs > input.atEpochMs)
        const out = outOfUse(members, input.atEpochMs)
        return inUse.length === 0
          ? endedSymbol(instrument, group, isPart, out)
          : { ...symbolOf(instrument, group, inUse, isPart, input), ...out }
      })
    })
    .sort((left, right) => concernOf(left.standing) - concernOf(right.standing))
}

/** What a symbol judges: a measuring point by the series that colours it, or what is made from the whole instrument. */
interface Member {
  readonly point: PlacedPoint | null
  readonly number: number | null
  /** Infinity: it is in use. */
  readonly endEpochMs: number
}

function membersOf(
  instrument: PlacedInstrument,
  group: readonly PlacedPoint[],
  isPart: boolean,
  { series }: PlanSymbolInput,
  ends: ReadonlyMap<number, number>,
): readonly Member[] {
  const endOf = (number: number | null) => ends.get(number ?? Number.NaN) ?? Number.POSITIVE_INFINITY
  const points = group.map((point) => ({
    point,
    number: point.primarySeries,
    // A point that no series colours is not among those that end.
    endEpochMs: Math.min(
      endOf(point.primarySeries),
      ...[point.retiredAtEpochMs, instrument.retiredAtEpochMs].flatMap((end) => end ?? []),
    ),
  }))
  // What is made from the whole instrument (a strut's force, a casing's deflection) counts like a point.
  // An instrument of one point may bear its name: what colours the point counts once.
  const colouring = new Set(points.map(({ number }) => number))
  const whole = isPart
    ? []
    : series.filter((one) => one.point === instrument.id && !colouring.has(one.series))
  return [
    ...points,
    ...whole.map(({ series: number }) => ({ point: null, number, endEpochMs: endOf(number) })),
  ]
}

function outOfUse(members: readonly Member[], atEpochMs: number) {
  const ends = members.flatMap(({ endEpochMs }) => (endEpochMs <= atEpochMs ? [endEpochMs] : []))
  return { outOfUse: ends.length, outOfUseSinceEpochMs: ends.length === 0 ? null : Math.min(...ends) }
}

/** What stands where nothing is measured any more. */
function endedSymbol(
  instrument: PlacedInstrument,
  group: readonly PlacedPoint[],
  isPart: boolean,
  out: Pick<PlanSymbol, 'outOfUse' | 'outOfUseSinceEpochMs'>,
): PlanSymbol {
  const head = headOf(group)
  return {
    id: isPart && head ? head.id : instrument.id,
    instrument: instrument.id,
    kind: instrument.kind,
    longitude: head?.longitude ?? 0,
    latitude: head?.latitude ?? 0,
    points: group.map(({ id }) => id),
    standing: 'out-of-use',
    partLate: false,
    allLate: false,
    noLevel: 0,
    channels: 0,
    ...out,
    share: null,
    ageMs: null,
    cameLater: false,
  }
}

const headOf = (group: readonly PlacedPoint[]): PlacedPoint | undefined =>
  [...group].sort((left, right) => left.depthMetres - right.depthMetres)[0]

function symbolOf(
  instrument: PlacedInstrument,
  group: readonly PlacedPoint[],
  members: readonly Member[],
  isPart: boolean,
  { states, atEpochMs, later }: PlanSymbolInput,
): Omit<PlanSymbol, 'outOfUse' | 'outOfUseSinceEpochMs'> {
  const judged = members
    .map(({ point, number }) => {
      const state = number === null ? undefined : states?.get(number)
      const standing: Standing = states === null ? 'unknown' : standingOf(state)
      return { point, state, standing, silent: states !== null && isSilent(state) }
    })
    .sort((left, right) => concernOf(right.standing) - concernOf(left.standing))
  const standing = judged[0]?.standing ?? 'late'
  const silent = judged.filter((one) => one.silent)
  const shares = judged.flatMap((one) => (one.silent ? [] : (one.state?.shareOfFirstLevel ?? [])))
  const instants = (silent.length > 0 ? silent : judged).flatMap((one) => one.state?.atEpochMs ?? [])
  const inUse = members.flatMap(({ point }) => point ?? [])
  const head = headOf(inUse.length > 0 ? inUse : group)
  return {
    id: isPart && head ? head.id : instrument.id,
    instrument: instrument.id,
    kind: instrument.kind,
    longitude: head?.longitude ?? 0,
    latitude: head?.latitude ?? 0,
    points: judged.flatMap((one) => one.point?.id ?? []),
    standing,
    critical: instrument.critical,
    partLate: silent.length > 0 && (standing !== 'late' || silent.length < judged.length),
    allLate: silent.length > 0 && silent.length === judged.length,
    noLevel: judged.filter((one) => one.standing === 'no-level').length,
    channels: judged.length,
    share: shares.length === 0 ? null : Math.max(...shares),
    ageMs: instants.length === 0 ? null : atEpochMs - Math.min(...instants),
    cameLater: members.some(({ number }) => number !== null && later?.has(number)),
  }
}

/** Points down one hole belong together however far it leans; so do points within half a metre in plan. */
function groupByPlace(points: readonly PlacedPoint[]): readonly (readonly PlacedPoint[])[] {
  if (points.length === 0) return []
  if (new Set(points.map((point) => point.location)).size === 1) return [points]
  const groups: PlacedPoint[][] = []
  for (const point of points) {
    const near = groups.find((group) => group[0] !== undefined && isSamePlace(group[0], point))
    if (near) near.push(point)
    else groups.push([point])
  }
  return groups
}

function isSamePlace(left: PlacedPoint, right: PlacedPoint): boolean {
  const squash = Math.cos((left.latitude * Math.PI) / 180)
  const eastDegrees = (left.longitude - right.longitude) * squash
  return Math.hypot(eastDegrees, left.latitude - right.latitude) < samePlaceDegrees
}
