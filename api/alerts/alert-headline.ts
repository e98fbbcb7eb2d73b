import type { Alert } from '#domain/alerts/alert.ts'
import { sayWatched } from './level-words.ts'
import type { MessageSite, ToldAlert } from './message-words.ts'

/** Which level stands at which series, and the value; of a drill, for whom it is. */
export function headlineOf({ alert, series }: ToldAlert, site: MessageSite): string {
  if (alert.cause.kind === 'drill') return `drill for ${alert.cause.duty}`
  const { level } = alert.cause
  return `${nameOf(site, level.level)} at ${level.series}: ${sayWatched(level, alert.episode, series)}`
}

/** What the site calls a level. */
export const nameOf = ({ facts }: MessageSite, level: number): string =>
  facts.levelNames[level - 1] ?? `Level ${level}`

/** Number of the level, 1 the lowest; 0: a drill, which has none. */
export const levelOf = ({ cause }: Alert): number => (cause.kind === 'level' ? cause.level.level : 0)
