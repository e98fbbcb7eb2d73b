import { positionAtDepth } from '#domain/geometry/hole.ts'
import { surveyedHole } from '#domain/geometry/surveyed-hole.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { changeSentence } from '#domain/reduction/change-uncertainty.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { tiltLines } from '#domain/reduction/tilt-lines.ts'
import type { Trail, TrailTip } from '#domain/reduction/trail.ts'
import { readingTrail } from '#domain/reduction/trail.ts'
import type { TrailReading } from '#domain/reduction/trail-source.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { standingVerdicts } from '#domain/site/standing-verdicts.ts'
import type { Recipe } from '../slices/recipe.ts'
import type { SliceIndex } from '../slices/slice-index.ts'
import type { Store } from '../store/store.ts'
import { withLastCompleteRound } from './incomplete-round.ts'
import { marksAt } from './marks-at.ts'
import { type PendingPublication, pendingPublication } from './pending-publication.ts'
import { openReadingLookup } from './reading-lookup.ts'

/**
 * How the value of a series at an instant was computed: that of its last reading at or before it. For a
 * series that an instrument derives, the members read at the last instant at which any was.
 */
export async function findTrail(
  request: {
    readonly store: Store
    readonly site: string
    readonly model: SiteModel
    readonly recipe: Recipe
    readonly index: SliceIndex
    /** Whether the last publishing failed. */
    readonly failed: boolean
  },
  series: string,
  atEpochMs: number,
): Promise<Outcome<RemarkedTrail>> {
  const { model, recipe, index, failed } = request
  if (!recipe.numberOf.has(series))
    return reject({
      code: 'series-unknown',
      value: series,
      message: `There is no series "${series}" at this site. The register lists those there are.`,
    })
  /** Marks are those of the readings of its own instant, and of each survey that stands at it, found at its own. */
  const withRemarks = async (trail: Trail): Promise<RemarkedTrail> => {
    const read = trail.sources.filter(
      ({ role, atEpochMs: at }) => (role === 'reading' || role === 'member') && at === trail.atEpochMs,
    )
    const sensors = read.map(({ series: id }) => id)
    const marks = [...(await marksAt(request, sensors, trail.atEpochMs))]
    for (const { role, series: id, atEpochMs: at } of trail.sources)
      if (role === 'member' && at < trail.atEpochMs)
        for (const mark of await marksAt(request, [id], at))
          marks.push(
            `${mark} Surveyed ${new Date(at).toISOString().slice(0, 10)}; it stands here until the next survey.`,
          )
    return {
      ...trail,
      marks,
      verdicts: verdictsAt(model, [series, ...sensors], trail.atEpochMs),
      pending: pendingPublication(trail, recipe, index, failed),
    }
  }
  const lookup = await openReadingLookup(request, atEpochMs)
  try {
    const bundle = recipe.bundles.find((one) => one.outputs.some(({ id }) => id === series))
    if (!bundle) {
      const reading = await lookup.lastReading(series, atEpochMs)
      if (!reading) return nothingBefore(series, atEpochMs)
      const trail = readingTrail(reading, tipOf(model, series))
      const own = isTilt(model, series) ? withTiltLines(trail) : trail
      return accept(await withRemarks(withChange(recipe, own)))
    }
    const members = bundle.slots.flatMap(({ series, maximumAgeMinutes }) =>
      series.map((id) => ({ id, maximumAgeMinutes })),
    )
    const unheld = members.filter(({ maximumAgeMinutes }) => maximumAgeMinutes === null)
    const readAlong = unheld.length > 0 ? unheld : members
    const instant = await lookup.lastInstant(
      readAlong.map(({ id }) => id),
      atEpochMs,
    )
    if (instant === null) return nothingBefore(series, atEpochMs)
    const read: TrailReading[] = []
    for (const { id, maximumAgeMinutes } of members) {
      const reading: TrailReading | null =
        maximumAgeMinutes === null
          ? await lookup.lastReading(id, instant)
          : await lookup.lastValued(id, instant, maximumAgeMinutes)
      if (reading && (maximumAgeMinutes !== null || reading.atEpochMs === instant)) read.push(reading)
    }
    const made = derivedTrail(bundle, series, instant, read)
    const told = withLastCompleteRound(made, bundle, recipe, index)
    return accept(await withRemarks(withChange(recipe, told)))
  } finally {
    lookup.close()
  }
}

/** A trail with what is said of the readings at its instant; the wire's `remarkedTrailSchema` has the same shape. */
export interface RemarkedTrail extends Trail {
  readonly marks: readonly string[]
  readonly verdicts: readonly string[]
  readonly pending: PendingPublication | null
}

const nothingBefore = (series: string, atEpochMs: number) =>
  reject({
    code: 'no-reading',
    value: series,
    message: `${series} has no reading at or before ${new Date(atEpochMs).toISOString()}.`,
  })

const verdictsAt = (model: SiteModel, series: readonly string[], atEpochMs: number): readonly string[] =>
  standingVerdicts(model.verdicts, model.verdictWithdrawals)
    .filter(
      (one) =>
        series.includes(one.series) && one.fromAt <= atEpochMs && atEpochMs < (one.untilAt ?? Infinity),
    )
    .map(
      ({ series: of, verdict, author, at, reason, alternatives, cause, confidence }) =>
        `${of}: ${verdict} by ${author} on ${new Date(at).toISOString().slice(0, 10)}${cause == null ? '' : `, laid on: ${cause} (${confidence})`}. ${reason}. Also considered: ${alternatives}.`,
    )

function withChange({ series }: Pick<Recipe, 'series'>, trail: Trail): Trail {
  const periods = series.find(({ id }) => id === trail.series)?.uncertaintyPeriods ?? []
  const sentence = trail.value === null ? null : changeSentence(periods, trail.atEpochMs, trail.unit)
  return sentence === null ? trail : { ...trail, changeSentence: sentence }
}

const isTilt = (model: SiteModel, series: string): boolean =>
  model.sensors.find(({ id }) => id === series)?.measure === 'tilt'

const withTiltLines = (trail: Trail): Trail =>
  trail.value === null
    ? trail
    : {
        ...trail,
        derived: [...trail.derived, ...tiltLines(trail.value, trail.unit, trail.standardUncertainty)],
      }

/** Level of the tip of a pore pressure and the site's water, so that its trail goes on to the piezometric level. */
function tipOf(model: SiteModel, series: string): TrailTip | null {
  const sensor = model.sensors.find(({ id }) => id === series)
  if (sensor?.measure !== 'pore-pressure') return null
  const point = model.points.find(({ id }) => id === sensor.point)
  const instrument = model.instruments.find(({ id }) => id === point?.instrument)
  const location = model.locations.find(({ id }) => id === instrument?.location)
  if (!point || !location) return null
  const hole = surveyedHole(location, model.holeSurveys)
  return {
    levelMetres: positionAtDepth(hole, point.depthMetres).levelMetres,
    water: siteWater(model.facts),
  }
}
