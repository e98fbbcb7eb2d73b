import { createMemo, createRoot } from 'solid-js'
import { openSiteGrid, type SiteGrid } from '#domain/geometry/site-grid.ts'
import { siteDocument } from './site-document.ts'

/** Grid of the open site; null while none is open or its CRS cannot be read. */
export const siteGrid = createRoot(() =>
  createMemo((): SiteGrid | null => {
    const crs = siteDocument()?.facts.crs
    if (crs === undefined) return null
    const opened = openSiteGrid(crs)
    return opened.ok ? opened.value : null
  }),
)
