import { readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { inject } from 'vitest'

/** Sizes at which the page is used: tablet along the works, wall in a meeting. */
export const tablet = { width: 820, height: 1180, touch: true }
export const wall = { width: 1920, height: 1080, touch: false }

export interface SamplePage {
  readonly page: Page
  /** Errors on the console, page errors, and requests to anywhere but our server. */
  readonly faults: readonly string[]
  close(): Promise<void>
}

/** Address of the server that `serve-sample-site.ts` started for this run. */
export function sampleAddress(): string {
  const { address, failure } = JSON.parse(readFileSync(inject('sampleServed'), 'utf8'))
  if (!address) throw new Error(failure)
  return address
}

/** Opens the sample site and waits until every point is coloured on the plan. */
export async function openSamplePage(
  browser: Browser,
  size: typeof tablet,
  query = '',
  address = sampleAddress(),
): Promise<SamplePage> {
  const context = await browser.newContext({
    viewport: { width: size.width, height: size.height },
    hasTouch: size.touch,
    isMobile: size.touch,
    permissions: ['clipboard-read', 'clipboard-write'],
  })
  const page = await context.newPage()
  const faults: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text())
  })
  page.on('pageerror', (error) => faults.push(String(error)))
  page.on('request', (request) => {
    const url = request.url()
    if (!url.startsWith(address) && !/^(data|blob):/.test(url)) faults.push(`request to ${url}`)
  })
  await page.goto(`${address}/${query}`)
  await waitForMark(page, 'plan-coloured')
  return { page, faults, close: () => context.close() }
}

/** Waits for a mark in the page's timeline. Our content policy forbids the text form of waitForFunction. */
export async function waitForMark(page: Page, name: string): Promise<void> {
  const giveUpAt = performance.now() + 60_000
  while ((await page.evaluate((mark) => performance.getEntriesByName(mark).length, name)) === 0) {
    if (performance.now() > giveUpAt)
      throw new Error(`the page did not leave the mark ${name} within a minute`)
    await page.waitForTimeout(25)
  }
}

declare module 'vitest' {
  interface ProvidedContext {
    /** File that says where the sample is served, or why it is not. */
    sampleServed: string
  }
}
