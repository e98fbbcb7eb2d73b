import { silentWatched, silentWatchedWords, type WatchedStanding } from '#domain/alerts/silent-watched.ts'

/** What must stand wherever decisions are taken from what was measured. */
export const cautionsOf = (alerts: WatchedStanding): readonly string[] => [
  'Monitoring supports and does not replace the judgement of the responsible engineer.',
  'Readings are provisional until they are approved, and may still be revised.',
  silentWatched(alerts).watched === 0
    ? 'No alert does not mean no movement: no series has a trigger level, so none can be raised.'
    : `No alert does not mean no movement: ${silentWatchedWords(silentWatched(alerts))}.`,
  'Between two readings, and between two measuring points, nothing was measured: contours and lines are drawn through what was.',
  'Follow the project’s response plan and local regulations.',
]
