import { derivedBundles, derivedMeasures } from '../reduction/derived-series.ts'
import type { PlanSite } from '../reduction/plans/plan-site.ts'
import type { SiteReadings } from './site-readings.ts'

/** Ids of all series of a site: one a sensor (`point/measure`), and those made from members of an instrument. */
export function seriesIds(site: PlanSite): ReadonlySet<string> {
  const bundles = derivedBundles(site)
  return new Set([
    ...site.sensors.map(({ id }) => id),
    ...(bundles.ok ? bundles.value.flatMap(({ outputs }) => outputs.map(({ id }) => id)) : []),
  ])
}

/**
 * Ids of all series that a folder may have. Where rows could not be read, or derived series not be planned, every
 * series that they may stand for counts, so that one fault does not make others.
 */
export function possibleSeriesIds({
  instruments,
  points,
  sensors,
  locations,
  strata,
  structureLines,
}: SiteReadings): ReadonlySet<string> {
  const site = {
    instruments: instruments.sound.map(({ row }) => row),
    points: points.sound.map(({ row }) => row),
    sensors: sensors.sound.map(({ row }) => row),
    locations: locations.sound.map(({ row }) => row),
    strata: strata.sound.map(({ row }) => row),
    structureLines: structureLines.sound.map(({ row }) => row),
  }
  const whole = [instruments, points, sensors, locations, strata, structureLines].every(
    ({ unsound }) => unsound.length === 0,
  )
  if (whole && derivedBundles(site).ok) return seriesIds(site)
  return new Set([
    ...sensors.names.keys(),
    ...[...instruments.names.keys(), ...points.names.keys()].flatMap((id) =>
      derivedMeasures.map((measure) => `${id}/${measure}`),
    ),
  ])
}
