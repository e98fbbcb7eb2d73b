import { createMemo, createRoot, createSignal } from 'solid-js'
import type { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import { siteDocument } from './site-document.ts'

const [open, setOpen] = createSignal<typeof openGridOfSite | null>(null)

/** Fetches the projections: nothing that the first colours need. */
export async function fetchSiteGrid(): Promise<void> {
  const loaded = await import('#domain/geometry/grid-of-site.ts')
  setOpen(() => loaded.openGridOfSite)
}

/** Grid of the open site; null while none is open, before it was fetched, or when its CRS cannot be read. */
export const siteGrid = createRoot(() =>
  createMemo((): SiteGrid | null => {
    const document = siteDocument()
    const opened = document ? open()?.(document.facts, document.controlPoints) : null
    return opened?.ok ? opened.value : null
  }),
)
