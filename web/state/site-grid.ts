import { createMemo, createRoot, createSignal } from 'solid-js'
import type { openSiteGrid, SiteGrid } from '#domain/geometry/site-grid.ts'
import { siteDocument } from './site-document.ts'

const [open, setOpen] = createSignal<typeof openSiteGrid | null>(null)

/** Fetches the projections: nothing that the first colours need. */
export async function fetchSiteGrid(): Promise<void> {
  const loaded = await import('#domain/geometry/site-grid.ts')
  setOpen(() => loaded.openSiteGrid)
}

/** Grid of the open site; null while none is open, before it was fetched, or when its CRS cannot be read. */
export const siteGrid = createRoot(() =>
  createMemo((): SiteGrid | null => {
    const crs = siteDocument()?.facts.crs
    const opened = crs === undefined ? null : open()?.(crs)
    return opened?.ok ? opened.value : null
  }),
)
