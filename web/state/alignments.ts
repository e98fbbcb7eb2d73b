import { createMemo, createRoot } from 'solid-js'
import { alignmentsOfWorks, type WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import { siteDocument } from './site-document.ts'
import { siteGrid } from './site-grid.ts'

/** Lines of the open site along which chainage is told; none before its grid was fetched. */
export const siteAlignments = createRoot(() =>
  createMemo((): readonly WorksAlignment[] => {
    const [document, grid] = [siteDocument(), siteGrid()]
    return document && grid ? alignmentsOfWorks(document.works, document.alignmentElements, grid) : []
  }),
)
