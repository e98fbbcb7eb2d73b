/**
 * Address of a page for someone else: names the site though it may be the only one here, and the instant of the clock
 * (epoch ms), so that it still shows the same tomorrow; null: the newest readings whenever it is opened.
 */
export function sharedAddress(page: URL, site: string, atEpochMs: number | null): string {
  const query = new URLSearchParams(page.search)
  query.set('site', site)
  if (atEpochMs === null) query.delete('at')
  else query.set('at', new Date(atEpochMs).toISOString())
  return `${page.origin}${page.pathname}?${query}`
}

/** Address at which someone else sees the boards of a frozen meeting, and nothing that came later. */
export const sharedWall = (page: URL, site: string, meeting: number): string =>
  `${page.origin}${page.pathname}?${new URLSearchParams({ site, meeting: String(meeting), board: '1' })}`
