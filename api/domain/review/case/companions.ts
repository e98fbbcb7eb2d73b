import type { SitePoint } from '../../geometry/site-grid.ts'
import { barrierBetween } from '../../ground/barrier-between.ts'
import { keptWith } from '../../kept-with.ts'
import type { Measure } from '../../site/vocabulary.ts'
import type { Driver } from '../review-case.ts'
import { type Place, placesOf } from './places-of.ts'
import type { KnownNetwork, ReviewedSeries, ReviewedSite } from './reviewed-site.ts'

/** ReviewedSeries that a reviewed one is held against, by what each is to it. */
export interface Companions {
  readonly same: readonly PlacedSeries[]
  readonly other: readonly PlacedSeries[]
  /** The same quantity within reach, but across a wall that parts the ground: nothing is held against it. */
  readonly parted: readonly PlacedSeries[]
  readonly ofLogger: readonly ReviewedSeries[]
  readonly drivers: readonly { readonly kind: Driver['kind']; readonly series: ReviewedSeries }[]
  readonly byHand: readonly PlacedSeries[]
  /** Of the casing that it is made from: a series for every depth and pair of faces. */
  readonly checksums: readonly ReviewedSeries[]
  readonly logger: string | null
  /** True where it is itself read by a person. */
  readonly byHandItself: boolean
}

export interface PlacedSeries {
  readonly series: ReviewedSeries
  readonly distanceMetres: number
  readonly aboveMetres: number
  readonly sameStratum: boolean
  /** Its values times this are in the unit of the series reviewed. */
  readonly factor: number
}

type Site = Pick<ReviewedSite, 'series' | 'points' | 'instruments' | 'locations' | 'loggers' | 'wiredTo'>

/** What the companions of a series hang on besides the site's records. */
export interface Around {
  /** The network as it was known at the instant: what is wired to what; null: not known, and the wiring of now stands in. */
  readonly network: Pick<KnownNetwork, 'loggers'> | null
  /** Walls and faults that part the ground then. */
  readonly barriers: readonly (readonly SitePoint[])[]
  readonly waterUnitWeightKnPerM3: number
}

/** Quantities in which one movement shows as well. */
const showsIn: Readonly<Partial<Record<Measure, readonly Measure[]>>> = {
  settlement: ['tilt', 'opening', 'pore-pressure', 'deflection', 'displacement'],
  tilt: ['settlement', 'opening', 'differential-settlement'],
  opening: ['settlement', 'tilt'],
  'pore-pressure': ['settlement', 'displacement', 'water-level'],
  'water-level': ['pore-pressure'],
  deflection: ['force', 'settlement', 'displacement'],
  displacement: ['settlement', 'deflection'],
  force: ['deflection', 'settlement'],
}

const reachMetres = { same: 80, other: 15, wall: 40, driver: 40, byHand: 40 }
const most = { same: 4, other: 6, ofLogger: 8, byHand: 2 }
const weather: ReadonlySet<Measure> = new Set([
  'temperature',
  'barometric-pressure',
  'tide-level',
  'rainfall',
])
const housekeeping: ReadonlySet<Measure> = new Set(['temperature', 'battery-voltage'])

/**
 * What can be held against a series at a site: where things stand and what is wired, nothing of their readings. Across a
 * wall that parts the ground nothing of the same quantity counts as beside it, but for the points of its own instrument.
 */
export function companionsOf(site: Site, subject: ReviewedSeries, around: Around): Companions {
  const places = placesOf(site)
  const own = places.get(subject.point)
  const parted = barrierBetween(around.barriers)
  const wired = around.network ? wiredIn(around.network) : new Map<string, string>()
  const loggerOf = (id: string) =>
    wired.get(id) ?? (around.network ? null : (site.wiredTo[id]?.split(' / ')[0] ?? null))
  // What an instrument makes of its members is read by their logger.
  const membersOf = (instrument: string | undefined) =>
    site.series.filter(({ point, made }) => !made && places.get(point)?.instrument === instrument)
  const byHandLoggers = new Set(site.loggers.flatMap(({ id, kind }) => (kind === 'logger' ? [] : [id])))
  const isByHand = (id: string) => byHandLoggers.has(loggerOf(id) ?? '')
  // A channel that was given away since is wired to nothing now: those of its own instrument tell its logger.
  const ofInstrument = new Set(membersOf(own?.instrument).flatMap(({ id }) => loggerOf(id) ?? []))
  const [only] = ofInstrument
  const logger = loggerOf(subject.id) ?? (subject.made || ofInstrument.size === 1 ? (only ?? null) : null)
  const placed = (
    reach: number,
    of: (series: ReviewedSeries) => number | null,
    acrossWall = false,
  ): readonly PlacedSeries[] => {
    if (!own) return []
    return site.series
      .flatMap((series): readonly PlacedSeries[] => {
        const place = places.get(series.point)
        const factor = of(series)
        if (factor === null || !place || series.series === subject.series) return []
        if (place.instrument === own.instrument) {
          if (subject.made || acrossWall) return []
        } else if (
          parted([own.eastingMetres, own.northingMetres], [place.eastingMetres, place.northingMetres]) !==
          acrossWall
        )
          return []
        const distanceMetres = Math.hypot(
          place.eastingMetres - own.eastingMetres,
          place.northingMetres - own.northingMetres,
        )
        if (distanceMetres > reach) return []
        const aboveMetres = place.levelMetres - own.levelMetres
        return [{ series, distanceMetres, aboveMetres, sameStratum: alike(place, own), factor }]
      })
      .toSorted((one, other) => one.distanceMetres - other.distanceMetres)
  }
  const whole = (series: ReviewedSeries) => places.get(series.point)?.instrument === series.point
  const alikeOrNot = (series: ReviewedSeries) =>
    series.measure === subject.measure &&
    series.unit === subject.unit &&
    series.made === subject.made &&
    whole(series) === whole(subject)
      ? 1
      : null
  const wide = subject.measure === 'force' || subject.measure === 'deflection'
  const byHandOf: Partial<Record<Measure, number>> =
    subject.measure === 'pore-pressure'
      ? { 'water-level': around.waterUnitWeightKnPerM3 }
      : { [subject.measure]: 1 }
  return {
    logger,
    byHandItself: isByHand(subject.id),
    parted: placed(reachMetres.same, alikeOrNot, true).slice(0, most.same),
    same: placed(reachMetres.same, alikeOrNot)
      .toSorted((one, other) => Number(other.sameStratum) - Number(one.sameStratum))
      .slice(0, most.same),
    other: placed(wide ? reachMetres.wall : reachMetres.other, ({ id, measure }) =>
      showsIn[subject.measure]?.includes(measure) && !(isByHand(id) && byHandOf[measure] !== undefined)
        ? 1
        : null,
    ).slice(0, most.other),
    byHand: isByHand(subject.id)
      ? []
      : placed(reachMetres.byHand, ({ id, measure }) =>
          isByHand(id) ? (byHandOf[measure] ?? null) : null,
        ).slice(0, most.byHand),
    ofLogger: site.series
      .filter(
        ({ id, series, measure }) =>
          logger !== null &&
          loggerOf(id) === logger &&
          series !== subject.series &&
          !housekeeping.has(measure) &&
          !isByHand(id),
      )
      .slice(0, most.ofLogger),
    checksums: site.series.filter(
      ({ measure, point }) =>
        isChecksum(measure) &&
        !isChecksum(subject.measure) &&
        own !== undefined &&
        places.get(point)?.instrument === own.instrument,
    ),
    drivers: driversOf(site, subject, places),
  }
}

/** Loggers by the series that are wired to them. */
const wiredIn = keptWith(
  ({ loggers }: Pick<KnownNetwork, 'loggers'>): ReadonlyMap<string, string> =>
    new Map(
      loggers.flatMap(({ logger, wiredChannels }) =>
        wiredChannels.map(({ series }) => [series, logger] as const),
      ),
    ),
)

const isChecksum = (measure: Measure): boolean => measure === 'checksum-a' || measure === 'checksum-b'

/** In one layer; where no layer is stated, at one level. */
const alike = (one: Place, other: Place): boolean =>
  one.stratum === other.stratum && (one.stratum !== null || Math.abs(one.levelMetres - other.levelMetres) < 2)

function driversOf(
  site: Site,
  subject: ReviewedSeries,
  places: ReadonlyMap<string, Place>,
): Companions['drivers'] {
  // What the weather does is not weighed against itself.
  if (weather.has(subject.measure)) return []
  const own = places.get(subject.point)
  const kindOf = new Map(site.instruments.map(({ id, kind }) => [id, kind]))
  return site.series.flatMap((series): Companions['drivers'] => {
    const place = places.get(series.point)
    if (!place || series.series === subject.series) return []
    const kind = kindOf.get(place.instrument)
    if (series.measure === 'barometric-pressure') return [{ kind: 'air-pressure', series }]
    if (series.measure === 'tide-level') return [{ kind: 'tide', series }]
    if (series.measure === 'rainfall') return [{ kind: 'rain', series }]
    if (series.measure !== 'temperature') return []
    if (kind === 'air-temperature') return [{ kind: 'air-temperature', series }]
    if (series.point === subject.point) return [{ kind: 'own-temperature', series }]
    if (own && place.instrument === own.instrument) return [{ kind: 'nearby-temperature', series }]
    return []
  })
}
