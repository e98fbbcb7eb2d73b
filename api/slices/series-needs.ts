import { createHash } from 'node:crypto'
import { instantsByClock, type Stretch } from '#domain/reduction/clock-reach.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import { hashedLinks } from './hashed-links.ts'
import type { Link } from './links.ts'
import type { Recipe } from './recipe.ts'
import { lookBackMinutes } from './reduce-window.ts'

/** What of a recipe some series need to come out as if all were made. */
export interface NeededRecipe extends Pick<Recipe, 'bundles' | 'numberOf' | 'heldSeries' | 'clocks'> {
  readonly links: readonly Link[]
  /** How far before an instant its value may reach back: companions and surveys at their greatest age. */
  readonly lookBackMinutes: number
}

/** What hangs on what, in both directions, by the store's numbers for series and channels. */
export interface SeriesNeeds {
  neededBy(series: Iterable<number>): NeededRecipe
  /** Changes whenever a value of the series could come out differently. */
  hashOf(series: number): string
  /** Instants among which readings of a channel stamped in a stretch stand. */
  instantsOf(channel: number, stamps: Stretch): Stretch
  /** Series that a reading of a channel in [fromEpochMs, untilEpochMs), by instants, gives, corrects or goes into. */
  hangingOn(channel: number, fromEpochMs: number, untilEpochMs: number): ReadonlySet<number>
}

/** Reads a recipe backwards once, so that a batch of few channels costs what hangs on these. */
export function createSeriesNeeds(recipe: Recipe): SeriesNeeds {
  const { links, bundles, numberOf, clocks } = recipe
  const linksOf = gather(links, ({ series }) => [series])
  const linksOn = gather(links, ({ channel }) => [channel])
  const madeBy = gather(bundles, ({ outputs }) => outputs.map(({ id }) => numberOf.get(id) as number))
  const membersOf = (bundle: DerivedBundle) =>
    bundle.slots.flatMap(({ series }) => series.map((id) => numberOf.get(id) as number))
  const needsOf = (series: number): readonly number[] => [
    ...(linksOf.get(series) ?? []).flatMap(({ temperatureSeries, barometerSeries }) =>
      [temperatureSeries, barometerSeries].filter((one) => one !== null),
    ),
    ...(madeBy.get(series) ?? []).flatMap(membersOf),
  ]
  const dependents = new Map<number, Set<number>>()
  for (const series of new Set([...linksOf.keys(), ...madeBy.keys()]))
    for (const need of needsOf(series)) dependents.set(need, (dependents.get(need) ?? new Set()).add(series))

  function neededBy(series: Iterable<number>): NeededRecipe {
    const needed = reach(series, needsOf)
    const ownLinks = [...needed].flatMap((one) => linksOf.get(one) ?? [])
    const wanted = new Set([...needed].flatMap((one) => madeBy.get(one) ?? []))
    // In the recipe's own order: what one bundle makes may go into a later one.
    const ownBundles = bundles.filter((bundle) => wanted.has(bundle))
    const held = ownBundles.flatMap(({ slots }) => slots.filter((slot) => slot.maximumAgeMinutes !== null))
    return {
      links: ownLinks,
      bundles: ownBundles,
      numberOf,
      clocks,
      heldSeries: new Set(held.flatMap((slot) => slot.series.map((id) => numberOf.get(id) as number))),
      lookBackMinutes: Math.max(
        lookBackMinutes,
        ...held.map(({ maximumAgeMinutes }) => maximumAgeMinutes ?? 0),
        ...ownLinks.flatMap((link) => [
          link.temperatureMaximumAgeMinutes ?? 0,
          link.barometerMaximumAgeMinutes ?? 0,
        ]),
      ),
    }
  }

  return {
    neededBy,
    hashOf(series) {
      const { links, bundles } = neededBy([series])
      return createHash('sha256')
        .update(JSON.stringify([hashedLinks(links), bundles]))
        .digest('base64url')
    },
    instantsOf(channel, stamps) {
      const own = clocks.find(({ channels }) => channels.includes(channel))
      return own ? instantsByClock(own.settings, stamps) : stamps
    },
    hangingOn(channel, fromEpochMs, untilEpochMs) {
      const given = (linksOn.get(channel) ?? []).filter(
        (link) => link.fromEpochMs < untilEpochMs && fromEpochMs < link.untilEpochMs,
      )
      return reach(
        given.map(({ series }) => series),
        (series) => dependents.get(series) ?? [],
      )
    },
  }
}

function gather<T>(all: readonly T[], keysOf: (one: T) => readonly number[]): ReadonlyMap<number, T[]> {
  const gathered = new Map<number, T[]>()
  for (const one of all)
    for (const key of keysOf(one)) {
      const known = gathered.get(key)
      if (known) known.push(one)
      else gathered.set(key, [one])
    }
  return gathered
}

/** Everything that can be come to, the beginnings included. */
function reach(from: Iterable<number>, next: (one: number) => Iterable<number>): ReadonlySet<number> {
  const found = new Set(from)
  for (const one of found) for (const other of next(one)) found.add(other)
  return found
}
