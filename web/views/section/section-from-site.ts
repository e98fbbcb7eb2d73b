import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { alignmentsOfWorks } from '#domain/geometry/alignment-of-works.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { wellMarks } from '../../derived/well-marks.ts'
import { holesOf } from './section-holes.ts'
import { pointsOf } from './section-points.ts'
import type { SectionProps } from './section-props.ts'
import { shapesOf } from './section-shapes.ts'

export type SectionSetting = Pick<
  SectionProps,
  | 'line'
  | 'offsetLimitMetres'
  | 'trueScale'
  | 'joinLayersWithinMetres'
  | 'movementExaggeration'
  | 'selectedPoint'
  | 'remarks'
  | 'waiting'
  | 'clockEpochMs'
>

/** Props of the section from the site and the states at the clock. */
export function sectionFromSite(
  document: SiteDocument,
  grid: SiteGrid,
  states: ReadonlyMap<number, SeriesState>,
  setting: SectionSetting,
): SectionProps {
  const bent = shapesOf(document, states, setting.line)
  return {
    ...setting,
    remarks: [...setting.remarks, ...bent.refused(setting.offsetLimitMetres)],
    grid,
    datum: document.facts.verticalDatum,
    timeZone: document.facts.timeZone,
    groundLevelMetres: document.facts.groundLevelMetres,
    waterUnitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
    levelCount: document.facts.levelNames.length,
    works: document.works,
    alignments: alignmentsOfWorks(document.works, document.alignmentElements, grid),
    holes: holesOf(document),
    points: pointsOf(document, states, setting.clockEpochMs),
    wells: wellMarks(document, setting.clockEpochMs),
    shapes: bent.shapes,
  }
}
