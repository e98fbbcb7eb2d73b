import type { AlertsDocument } from '#contract/alerts.ts'

/** What evaluation knows of the levels of a site beside the alerts that were raised. */
export type LevelsStanding = Pick<AlertsDocument, 'evaluation' | 'crossings' | 'unknown' | 'watchedSeries'>

/** What holds readings against levels and records what follows. */
export interface LevelEvaluation {
  /** Evaluates what arrived at a site since it was last asked. */
  arrived(site: string): Promise<void>
  /** Evaluates what time alone brings: silence, and levels that begin or end. */
  tick(): Promise<void>
  standing(site: string): Promise<LevelsStanding>
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
  }),
  close: async () => undefined,
}
