import { type Browser, chromium, type Page } from 'playwright-core'
import { inject } from 'vitest'

/** Opens the Chromium under test with software GL and no traffic of its own. */
export function openChromium(): Promise<Browser> {
  const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium'
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--use-angle=gl-egl',
      '--ignore-gpu-blocklist',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  })
}

/** Address of the server that `serve-sample-site.ts` started for this run. */
export const sampleAddress = (): string => inject('sampleAddress')

/** A page at a given size; anything it logs as an error, and any request elsewhere, is gathered in `faults`. */
export async function openPage(
  browser: Browser,
  size: { width: number; height: number; touch?: boolean },
): Promise<{ page: Page; faults: string[] }> {
  const context = await browser.newContext({
    viewport: { width: size.width, height: size.height },
    hasTouch: size.touch ?? false,
    isMobile: size.touch ?? false,
  })
  const page = await context.newPage()
  const faults: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text())
  })
  page.on('pageerror', (error) => faults.push(String(error)))
  page.on('request', (request) => {
    const url = request.url()
    if (!url.startsWith(sampleAddress()) && !/^(data|blob):/.test(url)) faults.push(`request to ${url}`)
  })
  return { page, faults }
}

declare module 'vitest' {
  interface ProvidedContext {
    sampleAddress: string
  }
}
