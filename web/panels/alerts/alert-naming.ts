import type { Series } from '#contract/site-document.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'

/** What words about alerts need of the site: its names of levels, its zone, the units of its series. */
export interface AlertNaming {
  readonly levelNames: readonly string[]
  readonly timeZone: string
  readonly seriesOf: (
    id: string,
  ) => Pick<Series, 'point' | 'measure' | 'unit' | 'decimals' | 'standardUncertainty'> | undefined
}

/** That of the open site. */
export const siteNaming = (): AlertNaming => ({
  levelNames: siteDocument()?.facts.levelNames ?? [],
  timeZone: siteDocument()?.facts.timeZone ?? 'UTC',
  seriesOf: (id) => siteLookup().seriesById.get(id),
})
