import type { PlacedInstrument, PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { positionAtDepth } from '#domain/geometry/hole.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'
import { type SiteWater, siteWater } from '#domain/site/site-water.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { cumulativeDeflection } from '../../derived/cumulative-deflection.ts'
import { relativeTo } from '../../derived/relative-displacements.ts'
import type { Columns } from '../../engine/columns.ts'
import { lastOf } from '../../queries/often-read.ts'
import { formatValue } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { standingOf } from '../../ui/state-scale.ts'
import { withExpected } from './expected-profile.ts'
import { notesOfProfile } from './notes-of-profile.ts'
import type { DepthProfileProps, ProfileCurve, ProfilePoint, ProfileReading } from './profile-props.ts'
import { publishedDepth, publishedMeasure, publishedSentence } from './published-profile.ts'
import { withStrains } from './strains-of-anchors.ts'
import { withStresses } from './stresses-of-string.ts'
import { type TurnedQuestion, turnedQuestion, turnReadings } from './turned-profile.ts'

/** The series that make a profile of an instrument, one a point; empty where it has no profile. */
export interface ProfileQuestion {
  readonly measure: Measure
  readonly series: readonly Series[]
  /** Of a casing turned to the east or north: what its axes, asked one after the other, contribute. */
  readonly turns?: TurnedQuestion['turns']
  /** Published strains above anchors, asked beside. */
  readonly strains?: readonly Series[]
}

export type ProfileAxis = 'a' | 'b' | 'east' | 'north'

const profiled: Readonly<Partial<Record<PlacedInstrument['kind'], Measure>>> = {
  piezometer: 'pore-pressure',
  extensometer: 'displacement',
  'in-place-inclinometer': 'inclination-a',
  'traversed-inclinometer': 'deviation-a',
}

const alongB: Readonly<Partial<Record<Measure, Measure>>> = {
  'inclination-a': 'inclination-b',
  'deviation-a': 'deviation-b',
}

/**
 * What to ask the engine for; `axis` chooses the A or B axis of an inclinometer, or east or north where both axes are
 * known. Null: no profile by depth, or none that way.
 */
export function profileQuestion(
  document: SiteDocument,
  instrument: PlacedInstrument,
  axis: ProfileAxis = 'a',
): ProfileQuestion | null {
  if (axis === 'east' || axis === 'north') return turnedQuestion(document, instrument, axis)
  const usual = profiled[instrument.kind]
  if (!usual) return null
  const published = publishedMeasure(document, instrument, axis)
  const measure = published ?? (axis === 'b' ? alongB[usual] : null) ?? usual
  // What is made of the whole of it (a greatest deflection) stands at no depth.
  const points = new Set(instrument.points.filter((id) => published === null || id !== instrument.id))
  const series = document.series.filter((one) => one.measure === measure && points.has(one.point))
  if (series.length === 0) return null
  if (instrument.kind !== 'extensometer') return { measure, series }
  return {
    measure,
    series,
    strains: document.series.filter((one) => one.measure === 'strain' && points.has(one.point)),
  }
}

/** All series that a question asks for. */
export const askedSeries = ({ series, strains }: ProfileQuestion) => lastOf([...series, ...(strains ?? [])])

export interface ProfileMoment {
  readonly heading: string
  readonly atEpochMs: number
}

/** Props of the profile from the site and the answer to `depthProfile`, whose instants are those of `moments`. */
export function profileFromSite(given: {
  readonly document: SiteDocument
  readonly instrument: PlacedInstrument
  readonly question: ProfileQuestion
  readonly moments: readonly ProfileMoment[]
  readonly columns: Columns | null
  readonly states: ReadonlyMap<number, SeriesState>
  readonly selectedPoint: string | null
  readonly remarks: readonly string[]
}): DepthProfileProps {
  const { document, instrument, question, moments, columns } = given
  const location = document.locations.find((one) => one.id === instrument.location)
  const points = new Map(document.points.map((point) => [point.id, point]))
  const { turns } = question
  const placed = turns ? question.series.slice(0, question.series.length / 2) : question.series
  const curves = moments.map((moment, which) => {
    const readings = readingsOf(given, question.series, columns, which, moment.atEpochMs)
    return { ...moment, readings: turns ? turnReadings({ turns }, readings) : readings }
  })
  const shared = {
    instrument: instrument.id,
    kind: instrument.kind,
    valueName: measureNames[question.measure],
    unit: question.series[0]?.unit ?? '',
    decimals: question.series[0]?.decimals ?? 1,
    datum: document.facts.verticalDatum,
    timeZone: document.facts.timeZone,
    collarLevelMetres: location?.collarLevelMetres ?? document.facts.groundLevelMetres,
    strata: document.strata
      .filter((layer) => layer.location === instrument.location)
      .map((layer) => ({ ...layer, name: layer.stratum })),
    positiveMeans: turns
      ? `moves ${question.measure.slice('displacement-'.length)}`
      : (question.series[0]?.positiveMeans ?? instrument.positiveMeans),
    levels: levelsOf(document, question),
    levelCount: document.facts.levelNames.length,
    selectedPoint: given.selectedPoint,
    remarks: [...given.remarks, ...notesOfProfile({ ...given, series: question.series })],
    waiting: columns === null,
    water: null,
    expected: null,
    still: null,
    joined: false,
    points: placed.flatMap((series) => placedOf(points.get(series.point))),
    curves,
  }
  const strains = moments.map((moment, which) =>
    readingsOf(given, question.strains ?? [], columns, which, moment.atEpochMs),
  )
  const drawn = columns
    ? withStrains(instrument, strains, drawnFrom(given, shared, points))
    : drawnFrom(given, shared, points)
  return turns ? drawn : withExpected(given, measureDrawn(instrument, question.measure), drawn)
}

/** What the profile shows of the measure asked for: increments of a string are added up to its deflection. */
const measureDrawn = ({ kind }: PlacedInstrument, measure: Measure): Measure =>
  kind !== 'in-place-inclinometer'
    ? measure
    : measure === 'inclination-a'
      ? 'deflection'
      : measure === 'inclination-b'
        ? 'deflection-b'
        : measure

function drawnFrom(
  given: Parameters<typeof profileFromSite>[0],
  shared: DepthProfileProps,
  points: ReadonlyMap<string, PlacedPoint>,
): DepthProfileProps {
  const { document, instrument, question } = given
  if (
    publishedMeasure(document, instrument, question.measure.endsWith('-b') ? 'b' : 'a') === question.measure
  )
    return asPublished(given, shared, points)
  if (instrument.kind === 'extensometer') return asDisplacements(shared, instrument)
  if (instrument.kind === 'in-place-inclinometer') return asDeflection(given, shared, points)
  if (instrument.kind !== 'piezometer') return shared
  const water = siteWater(document.facts)
  return withStresses(given, {
    ...shared,
    water: waterOf(shared, water),
    remarks: [...shared.remarks, water.sentence],
  })
}

function asPublished(
  { document, instrument }: { document: SiteDocument; instrument: PlacedInstrument },
  props: DepthProfileProps,
  points: ReadonlyMap<string, PlacedPoint>,
): DepthProfileProps {
  const location = document.locations.find((one) => one.id === instrument.location)
  const places = props.points.map((one) => {
    const point = points.get(one.point)
    const depthMetres = point ? publishedDepth(instrument, point) : one.depthMetres
    return {
      ...one,
      depthMetres,
      levelMetres: location
        ? positionAtDepth(location, depthMetres).levelMetres
        : props.collarLevelMetres - depthMetres,
    }
  })
  const sentence = publishedSentence(instrument)
  // A surveyed head is not still: nothing of the profile is.
  if (instrument.fixedEnd === 'surveyed-head')
    return { ...props, joined: true, points: places, remarks: [...props.remarks, sentence] }
  const deepest = Math.min(...props.points.map(({ levelMetres }) => levelMetres))
  const levelMetres = instrument.fixedEnd === 'head' ? props.collarLevelMetres : deepest
  return { ...props, joined: true, points: places, still: { levelMetres, sentence } }
}

function readingsOf(
  given: { states: ReadonlyMap<number, SeriesState> },
  asked: readonly Series[],
  columns: Columns | null,
  which: number,
  atEpochMs: number,
): ProfileReading[] {
  if (!columns) return []
  const rowOf = new Map<number, number>()
  const whichColumn = columns.number('which')
  const seriesColumn = columns.number('series')
  for (let row = 0; row < columns.rows; row++)
    if (whichColumn[row] === which) rowOf.set(seriesColumn[row] as number, row)
  return asked.map((series) => {
    const row = rowOf.get(series.series)
    const read = row === undefined ? Number.NaN : (columns.number('value')[row] as number)
    const readAt = row === undefined ? null : (columns.number('last_at_ms')[row] as number)
    const late = readAt === null || atEpochMs - readAt > series.lateAfterMinutes * 60_000
    const value = Number.isFinite(read) ? read : null
    const known = which === 0 ? given.states.get(series.series) : undefined
    const standing = late || value === null ? 'late' : known ? standingOf(known) : 'no-level'
    return { point: series.point, value, atEpochMs: readAt, late, standing }
  })
}

const placedOf = (point: PlacedPoint | undefined): ProfilePoint[] =>
  point ? [{ point: point.id, depthMetres: point.depthMetres, levelMetres: point.levelMetres }] : []

/** The levels that hold for the whole string; those of single points are told by their standing. */
function levelsOf(document: SiteDocument, question: ProfileQuestion) {
  const ids = new Set(question.series.map((series) => series.id))
  const found = new Map<string, { name: string; value: number; level: number; count: number }>()
  for (const level of valueLevels(document.triggerLevels, document.stages)) {
    if (!ids.has(level.series)) continue
    const values = level.direction === 'either' ? [level.value, -level.value] : [level.value]
    for (const value of values) {
      const key = `${level.level} ${value}`
      const name = document.facts.levelNames[level.level - 1] ?? `Level ${level.level}`
      found.set(key, { name, value, level: level.level, count: (found.get(key)?.count ?? 0) + 1 })
    }
  }
  return [...found.values()].filter((level) => level.count >= question.series.length)
}

/** Pressure at rest below the level to which water rises from the highest tip that has a pressure. */
function waterOf(
  props: Pick<DepthProfileProps, 'points' | 'curves'>,
  { unitWeightKnPerM3 }: SiteWater,
): DepthProfileProps['water'] {
  const clock = props.curves[0]
  const highest = props.points
    .toSorted((left, right) => right.levelMetres - left.levelMetres)
    .flatMap((point) => {
      const reading = clock?.readings.find((one) => one.point === point.point)
      return reading && reading.value !== null && reading.value > 0
        ? [{ point, value: reading.value, late: reading.late }]
        : []
    })[0]
  if (!highest) return null
  const levelMetres = piezometricLevelMetres(highest.point.levelMetres, highest.value, unitWeightKnPerM3)
  return {
    levelMetres,
    unitWeightKnPerM3,
    sentence: `Pressure at rest below ${formatValue(levelMetres, 2)} m, the water level of ${highest.point.point}${highest.late ? ' (no current data)' : ''}`,
  }
}

function asDisplacements(props: DepthProfileProps, instrument: PlacedInstrument): DepthProfileProps {
  const head = { depthMetres: 0, levelMetres: props.collarLevelMetres }
  if (instrument.fixedEnd !== 'deepest-anchor')
    return {
      ...props,
      joined: true,
      still: {
        levelMetres: head.levelMetres,
        sentence:
          'Displacements are relative to the head, drawn at 0. The head itself moves: its settlement is levelled apart.',
      },
    }
  const deepest = props.points.toSorted((left, right) => right.depthMetres - left.depthMetres)[0]
  if (!deepest) return { ...props, joined: true }
  return {
    ...props,
    joined: true,
    still: {
      levelMetres: deepest.levelMetres,
      sentence: `Displacements are relative to the deepest anchor, ${deepest.point}, taken to be still and drawn at 0.`,
    },
    curves: props.curves.map((curve) => {
      const depthOf = (point: string) => props.points.find((one) => one.point === point)?.depthMetres ?? 0
      const moved = relativeTo(
        curve.readings.map((one) => ({ depthMetres: depthOf(one.point), value: one.value })),
        deepest.depthMetres,
      )
      const still = curve.readings.find((one) => one.point === deepest.point)
      return {
        ...curve,
        readings: curve.readings.map((one, place) => ({
          ...one,
          value: moved[place]?.value ?? null,
          ...(still?.late && one.value !== null ? toldThrough(still.point, one) : {}),
        })),
      }
    }),
  }
}

/** What becomes of a reading whose value is told through one that is late: it is no more current than that one. */
const toldThrough = (lateThrough: string, reading: ProfileReading) => ({
  standing: 'late' as const,
  lateThrough: reading.point === lateThrough ? null : lateThrough,
})

/** For each segment at or beyond the first late one, as movements are added up from the still end: that one. */
function firstLate(
  readings: readonly ProfileReading[],
  points: ReadonlyMap<string, PlacedPoint>,
  fixedEnd: 'head' | 'toe',
): ReadonlyMap<string, string> {
  const depthOf = ({ point }: ProfileReading) => points.get(point)?.depthMetres ?? 0
  const ordered = readings.toSorted((one, other) =>
    fixedEnd === 'toe' ? depthOf(other) - depthOf(one) : depthOf(one) - depthOf(other),
  )
  const from = ordered.findIndex((reading) => reading.late)
  const first = ordered[from]
  return new Map(first ? ordered.slice(from).map(({ point }) => [point, first.point]) : [])
}

function asDeflection(
  given: { document: SiteDocument; instrument: PlacedInstrument; question: ProfileQuestion },
  props: DepthProfileProps,
  points: ReadonlyMap<string, PlacedPoint>,
): DepthProfileProps {
  const fixedEnd = given.instrument.fixedEnd === 'head' ? 'head' : 'toe'
  const location = given.document.locations.find((one) => one.id === given.instrument.location)
  let incomplete = false
  // A segment's movement is known at the end away from the still one.
  const endOf = (point: PlacedPoint) =>
    point.depthMetres + ((fixedEnd === 'toe' ? -1 : 1) * (point.gaugeLengthMetres ?? 0)) / 2
  const curves = props.curves.map((curve): ProfileCurve => {
    const segments = curve.readings.flatMap((reading) => {
      const point = points.get(reading.point)
      return point?.gaugeLengthMetres
        ? [
            {
              depthMetres: point.depthMetres,
              gaugeLengthMetres: point.gaugeLengthMetres,
              incrementMillimetres: reading.value,
            },
          ]
        : []
    })
    const { places, complete } = cumulativeDeflection(segments, fixedEnd)
    if (!complete && curve.readings.length > 0) incomplete = true
    const lateThrough = firstLate(curve.readings, points, fixedEnd)
    return {
      ...curve,
      readings: curve.readings.map((reading) => {
        const point = points.get(reading.point)
        const place = point && places.find((one) => Math.abs(one.depthMetres - endOf(point)) < 0.01)
        const through = lateThrough.get(reading.point)
        return {
          ...reading,
          value: place?.millimetres ?? null,
          ...(through && place ? toldThrough(through, reading) : {}),
        }
      }),
    }
  })
  const levelAt = (depthMetres: number) =>
    location ? positionAtDepth(location, depthMetres).levelMetres : props.collarLevelMetres - depthMetres
  const ends = props.points.map((one) => {
    const point = points.get(one.point)
    const depthMetres = point ? endOf(point) : one.depthMetres
    return { ...one, depthMetres, levelMetres: levelAt(depthMetres) }
  })
  const halves = given.question.series.flatMap((series) => points.get(series.point) ?? [])
  const stillDepth =
    fixedEnd === 'toe'
      ? Math.max(...halves.map((point) => point.depthMetres + (point.gaugeLengthMetres ?? 0) / 2))
      : Math.min(...halves.map((point) => point.depthMetres - (point.gaugeLengthMetres ?? 0) / 2))
  const axis = given.question.measure === 'inclination-b' ? 'B' : 'A'
  return {
    ...props,
    valueName: given.question.turns ? measureNames[given.question.measure] : `Deflection, axis ${axis}`,
    unit: 'mm',
    decimals: 1,
    joined: true,
    points: ends,
    curves,
    still: {
      levelMetres: levelAt(stillDepth),
      sentence: `Movements are added up from the ${fixedEnd}, taken to be still; each is drawn at its segment's ${fixedEnd === 'toe' ? 'top' : 'base'}.`,
    },
    remarks: incomplete
      ? [...props.remarks, 'A segment gave no value: beyond it the deflection is not known and not drawn.']
      : props.remarks,
  }
}
