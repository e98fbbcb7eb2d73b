import { calibrationAt } from '#domain/reduction/calibration-in-force.ts'
import type { Trail } from '#domain/reduction/trail.ts'
import { monthsBetween } from '../slices/months.ts'
import { type Recipe, recipeOfMonth } from '../slices/recipe.ts'
import type { SliceIndex } from '../slices/slice-index.ts'

/** What histories and plan still show of the month of a trail's value; the wire's `pendingPublicationSchema`. */
export interface PendingPublication {
  /** `2027-03` */
  readonly month: string
  /** Version that a source's published values were made under, where the trail has another; null: none was in force. */
  readonly published: readonly { readonly series: string; readonly version: number | null }[]
  readonly sentence: string
}

/** Null where what is published of that month was made by the recipe that the trail was. */
export function pendingPublication(
  { sources, atEpochMs }: Pick<Trail, 'sources' | 'atEpochMs'>,
  recipe: Recipe,
  index: SliceIndex,
  failed: boolean,
): PendingPublication | null {
  const [month] = monthsBetween(atEpochMs, atEpochMs)
  if (month === undefined) return null
  const end = failed
    ? 'Working them out anew failed; the server’s report says why.'
    : 'They are being worked out anew.'
  const kept = index.months[month.name]
  if (kept === undefined)
    return {
      month: month.name,
      published: [],
      sentence: `Histories and plan show no values of ${month.name} yet. ${end}`,
    }
  if (kept.recipe === recipeOfMonth(recipe, month)) return null
  const before = index.calibrations
  const published = sources.flatMap(({ series, atEpochMs: at, calibrationVersion }) => {
    if (before === undefined) return []
    const own = before.filter(({ sensor }) => sensor === series)
    const version = calibrationAt(own, at)?.version ?? null
    return version === calibrationVersion ? [] : [{ series, version, now: calibrationVersion }]
  })
  const versions = published.map(({ series, version, now }) =>
    version === null
      ? `nothing for ${series}, which had no calibration in force`
      : `version ${version} of the calibration of ${series}${now === null ? '' : ` (here: version ${now})`}`,
  )
  const shown =
    versions.length > 0
      ? `Histories and plan still show ${versions.join(', ')} for ${month.name}.`
      : `Histories and plan still show values of ${month.name} from before the last change of records.`
  return {
    month: month.name,
    published: published.map(({ series, version }) => ({ series, version })),
    sentence: `${shown} ${end}`,
  }
}
