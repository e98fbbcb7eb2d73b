import type { AlertsDocument } from '#contract/alerts.ts'
import type { Alert } from '#domain/alerts/alert.ts'
import type { Episode } from '#domain/alerts/episode.ts'

/** What evaluation knows of the levels of a site beside the alerts that were raised. */
export interface LevelsStanding
  extends Pick<AlertsDocument, 'evaluation' | 'crossings' | 'unknown' | 'watchedSeries' | 'unreadSeries'> {
  /** Every episode of each level, by its id, with its peak as it is now. */
  readonly episodes: ReadonlyMap<string, readonly Episode[]>
}

/** An alert with the peak of its episode as it is now: events record no peaks, which grow with every reading. */
export function withPeak(alert: Alert, { episodes }: Pick<LevelsStanding, 'episodes'>): Alert {
  const { episode, bornOut } = alert
  if (!episode || !bornOut) return alert
  const now = episodes
    .get(episode.level)
    ?.find(({ crossedAtEpochMs }) => crossedAtEpochMs === episode.crossedAtEpochMs)
  if (!now) return alert
  const { peakValue, peakAtEpochMs } = now
  return { ...alert, episode: { ...episode, peakValue, peakAtEpochMs } }
}

/** What holds readings against levels and records what follows. */
export interface LevelEvaluation {
  /** Evaluates what arrived at a site since it was last asked. */
  arrived(site: string): Promise<void>
  /** Evaluates what time alone brings: silence, and levels that begin or end. */
  tick(): Promise<void>
  /** As of an instant, of the readings that are here; else as of the site's present. */
  standing(site: string, asOfEpochMs?: number): Promise<LevelsStanding>
  close(): Promise<void>
}

/** Of a server on which nothing is evaluated: it says so, and promises nothing. */
export const noEvaluation: LevelEvaluation = {
  arrived: async () => undefined,
  tick: async () => undefined,
  standing: async () => ({
    evaluation: {
      revision: 0,
      behind: true,
      evaluatedAtEpochMs: null,
      failure: 'Levels are not evaluated on this server.',
    },
    crossings: [],
    unknown: [],
    watchedSeries: 0,
    unreadSeries: 0,
    episodes: new Map(),
  }),
  close: async () => undefined,
}
