import type { WatchedOfSeries } from '#domain/site/vocabulary.ts'
import { siteDocument } from '../../state/site-document.ts'

/** The project's own name of levels of a number. */
export const nameOfLevel = (number: number): string =>
  siteDocument()?.facts.levelNames[number - 1] ?? `Level ${number}`

/** What a level may watch, as a choice says it. */
export const watchedWords: Readonly<Record<WatchedOfSeries, string>> = {
  value: 'the value',
  change: 'the change since an instant',
  rate: 'the rate over a time',
  difference: 'the difference from another series',
  silence: 'silence',
  combination: 'several levels together',
}
