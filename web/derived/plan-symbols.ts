import type { PlacedInstrument, PlacedPoint, Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
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
  readonly partLate: boolean
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
 * instrument. Points out of use at that instant are left out. Least concern first: the worst is drawn on top.
 */
export function gatherSymbols(input: PlanSymbolInput): readonly PlanSymbol[] {
  const pointById = new Map(input.points.map((point) => [point.id, point]))
  return input.instruments
    .flatMap((instrument) => {
      const points = instrument.points.flatMap((id) => pointById.get(id) ?? [])
      const inUse = points.filter((point) => isInUse(point.retiredAtEpochMs, input.atEpochMs))
      if (inUse.length === 0 || !isInUse(instrument.retiredAtEpochMs, input.atEpochMs)) return []
      const groups = groupByPlace(inUse)
      return groups.map((group) => symbolOf(instrument, group, groups.length > 1, input))
    })
    .sort((left, right) => concernOf(left.standing) - concernOf(right.standing))
}

function symbolOf(
  instrument: PlacedInstrument,
  group: readonly PlacedPoint[],
  isPart: boolean,
  { series, states, atEpochMs, later }: PlanSymbolInput,
): PlanSymbol {
  const members = group.map((point) => ({ point: point.id, number: point.primarySeries }))
  // What is made from the whole instrument (a strut's force, a casing's deflection) counts like a point.
  const whole = isPart ? [] : series.filter((one) => one.point === instrument.id)
  const judged = [...members, ...whole.map((one) => ({ point: null, number: one.series }))]
    .map(({ point, number }) => {
      const state = number === null ? undefined : states?.get(number)
      const standing: Standing = states === null ? 'unknown' : standingOf(state)
      return { point, state, standing, silent: states !== null && isSilent(state) }
    })
    .sort((left, right) => concernOf(right.standing) - concernOf(left.standing))
  const standing = judged[0]?.standing ?? 'late'
  const numbers = [...members, ...whole.map((one) => ({ number: one.series }))].map(({ number }) => number)
  const silent = judged.filter((one) => one.silent)
  const shares = judged.flatMap((one) => (one.silent ? [] : (one.state?.shareOfFirstLevel ?? [])))
  const instants = (silent.length > 0 ? silent : judged).flatMap((one) => one.state?.atEpochMs ?? [])
  const head = [...group].sort((left, right) => left.depthMetres - right.depthMetres)[0]
  return {
    id: isPart && head ? head.id : instrument.id,
    instrument: instrument.id,
    kind: instrument.kind,
    longitude: head?.longitude ?? 0,
    latitude: head?.latitude ?? 0,
    points: judged.flatMap((one) => one.point ?? []),
    standing,
    partLate: silent.length > 0 && (standing !== 'late' || silent.length < judged.length),
    share: shares.length === 0 ? null : Math.max(...shares),
    ageMs: instants.length === 0 ? null : atEpochMs - Math.min(...instants),
    cameLater: numbers.some((number) => number !== null && later?.has(number)),
  }
}

/** Points down one hole belong together however far it leans; so do points within half a metre in plan. */
function groupByPlace(points: readonly PlacedPoint[]): readonly (readonly PlacedPoint[])[] {
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

const isInUse = (retiredAtEpochMs: number | null, atEpochMs: number) =>
  retiredAtEpochMs === null || retiredAtEpochMs > atEpochMs
