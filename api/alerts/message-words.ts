import type { Alert } from '#domain/alerts/alert.ts'
import type { SilentWatched } from '#domain/alerts/silent-watched.ts'
import type { SiteFacts } from '#domain/site/site.ts'
import type { SeriesWords } from './level-words.ts'

/** One alert as a message tells it. */
export interface ToldAlert {
  readonly alert: Alert
  readonly step: number
  readonly round: number
  readonly series: SeriesWords | null
  /** Alerts of lower levels of the same series that are not closed. */
  readonly lowerOpen: readonly Alert[]
}

/** What every message of a site needs. */
export interface MessageSite {
  readonly facts: Pick<SiteFacts, 'id' | 'name' | 'timeZone' | 'levelNames' | 'invented'>
  /** Series with a level in force that have no current data, of how many; null: not known now. */
  readonly silent: SilentWatched | null
}

export interface MessageWords {
  readonly subject: string
  readonly text: string
  /** Address in the page, without origin. */
  readonly path: string
  readonly facts: Readonly<Record<string, string | number | boolean | null>>
}
