import type { SiteEvent } from '#contract/alerts.ts'

export type SiteListener = (event: SiteEvent) => void

/** Who hears what happens at which site. */
export interface Listeners {
  /** Until what it gives is called. */
  listen(site: string, listener: SiteListener): () => void
  tell(site: string, event: SiteEvent): void
}

export function createListeners(report: (line: string) => void): Listeners {
  const bySite = new Map<string, Set<SiteListener>>()
  return {
    listen(site, listener) {
      const ofSite = bySite.get(site) ?? new Set()
      bySite.set(site, ofSite.add(listener))
      return () => {
        ofSite.delete(listener)
        if (ofSite.size === 0) bySite.delete(site)
      }
    },
    tell(site, event) {
      for (const listener of [...(bySite.get(site) ?? [])])
        try {
          listener(event)
        } catch (failure) {
          report(`${site}: a listener failed: ${String(failure)}`)
        }
    },
  }
}
