import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'

type Found = Awaited<ReturnType<AxeBuilder['analyze']>>['violations']
type Options = Parameters<AxeBuilder['options']>[0]

/**
 * What axe-core finds in a page: the rules of WCAG 2.2 A and AA that a program can check, unless the options say
 * otherwise; `judged` selects what it judged a moment ago and need not again. It is put into a document once, and does
 * not list what it did not object to: that took most of its time.
 */
export async function findWithAxe(page: Page, options: Options = {}, judged?: string): Promise<Found> {
  const isThere = await page.evaluate(() => 'axe' in window)
  const builder = new AxeBuilder(isThere ? { page, axeSource: 'void 0' } : { page })
  builder.setLegacyMode(true).options({ resultTypes: ['violations'], ...options })
  if (judged) builder.exclude(judged)
  const { violations } = await builder.analyze()
  return violations
}
