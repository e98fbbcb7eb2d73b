import type { HoleSurveyRow, Location } from '../site/tables.ts'
import type { HoleStation } from './hole-course.ts'

/** A location with the stations of its own deviation survey, by growing depth; none where it was not surveyed. */
export function surveyedHole<L extends Location>(
  location: L,
  surveys: readonly HoleSurveyRow[],
): L & { readonly survey: readonly HoleStation[] } {
  const survey = surveys
    .filter((row) => row.location === location.id)
    .map(({ depthMetres, azimuthDegrees, dipDegrees }) => ({ depthMetres, azimuthDegrees, dipDegrees }))
    .toSorted((a, b) => a.depthMetres - b.depthMetres)
  return { ...location, survey }
}
