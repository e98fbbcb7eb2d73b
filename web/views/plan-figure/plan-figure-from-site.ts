import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { alignmentsOfWorks } from '#domain/geometry/alignment-of-works.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { accept, type Outcome } from '#domain/outcome.ts'
import { gatherSymbols } from '../../derived/plan-symbols.ts'
import { wellMarks } from '../../derived/well-marks.ts'
import type { PlanFigureProps } from './plan-figure-props.ts'

type PlanFigureSetting = Pick<PlanFigureProps, 'atEpochMs'> &
  Partial<Pick<PlanFigureProps, 'showNames' | 'surface' | 'changes' | 'extent'>> & {
    /** Numbers of series whose newest value came later than the instant; left out: not told. */
    readonly later?: ReadonlyMap<number, unknown> | null
  }

/** The plan of a site from its document and the states at an instant; null: states are not known. */
export function planFigureFromSite(
  document: SiteDocument,
  states: ReadonlyMap<number, SeriesState> | null,
  { later = null, ...setting }: PlanFigureSetting,
): Outcome<PlanFigureProps> {
  const grid = openGridOfSite(document.facts, document.controlPoints)
  if (!grid.ok) return grid
  return accept({
    showNames: true,
    surface: null,
    changes: [],
    extent: null,
    ...setting,
    grid: grid.value,
    works: document.works,
    alignments: alignmentsOfWorks(document.works, document.alignmentElements, grid.value),
    wells: wellMarks(document, setting.atEpochMs),
    symbols: gatherSymbols({ ...document, states, later, atEpochMs: setting.atEpochMs }),
    levelNames: document.facts.levelNames,
    timeZone: document.facts.timeZone,
  })
}
