import type { Locator } from 'playwright-core'

const most = 80

/** Presses Tab until an element has the focus, as a person does who has no mouse. */
export async function tabTo(target: Locator): Promise<void> {
  const page = target.page()
  for (let pressed = 0; pressed < most; pressed++) {
    if (await target.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`${target} did not get the focus within ${most} presses of Tab`)
}
