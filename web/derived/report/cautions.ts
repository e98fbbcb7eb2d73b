import type { AlertsDocument } from '#contract/alerts.ts'

/** What must stand wherever decisions are taken from what was measured. */
export const cautionsOf = ({
  unknown,
  watchedSeries,
}: Pick<AlertsDocument, 'unknown' | 'watchedSeries'>): readonly string[] => [
  'Monitoring supports and does not replace the judgement of the responsible engineer.',
  'Readings are provisional until they are approved, and may still be revised.',
  watchedSeries === 0
    ? 'No alert does not mean no movement: no series has a trigger level, so none can be raised.'
    : `No alert does not mean no movement: ${unknown.length} of ${watchedSeries} watched series ${unknown.length === 1 ? 'has' : 'have'} no current data.`,
  'Between two readings, and between two measuring points, nothing was measured: contours and lines are drawn through what was.',
  'Follow the project’s response plan and local regulations.',
]
