import { metresBetween } from '../../geometry/straight-distance.ts'
import type { DatedNote } from '../review-case.ts'
import type { ReviewedSeries, ReviewedSite } from './reviewed-site.ts'

const noteKinds = {
  works: 'works',
  visit: 'visit',
  damage: 'damage',
  weather: 'diary',
  note: 'diary',
} as const

/** Stages, diary and calibrations: what people did or noted within the stretch and a fortnight before. */
export function notesOf(
  site: ReviewedSite,
  subject: ReviewedSeries,
  fromEpochMs: number,
  asOfEpochMs: number,
): readonly DatedNote[] {
  const since = fromEpochMs - 14 * 86_400_000
  const point = site.points.find(({ id }) => id === subject.point)
  const within = (at: number) => since <= at && at <= asOfEpochMs
  const away = (east: number | null | undefined, north: number | null | undefined) =>
    point && east != null && north != null
      ? metresBetween(point, { eastingMetres: east, northingMetres: north })
      : null
  return [
    ...site.stages.map(
      ({ startsAt, name }): DatedNote => ({
        kind: 'works',
        atEpochMs: startsAt,
        text: `${name} began`,
        distanceMetres: null,
      }),
    ),
    ...site.diary.map(
      (entry): DatedNote => ({
        kind: noteKinds[entry.kind],
        atEpochMs: entry.at,
        text: entry.text,
        distanceMetres: away(entry.eastingMetres, entry.northingMetres),
      }),
    ),
    ...(subject.uncertaintyPeriods ?? []).slice(1).map(
      (period): DatedNote => ({
        kind: 'calibration',
        atEpochMs: period.fromEpochMs,
        text: 'another calibration, zero or barometer of it came into force',
        distanceMetres: 0,
      }),
    ),
  ].filter(({ atEpochMs }) => within(atEpochMs))
}
