import type { Page } from 'playwright-core'

/** Goes to an address within the open page, as the browser's own way back does. */
export const visit = (page: Page, query: string): Promise<void> =>
  page.evaluate((to) => {
    history.pushState(null, '', `/${to}`)
    dispatchEvent(new PopStateEvent('popstate'))
  }, query)
