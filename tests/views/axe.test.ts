import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findWithAxe } from '../support/find-with-axe.ts'
import { openChromium } from '../support/open-chromium.ts'
import { pageRests } from '../support/page-rests.ts'
import { openSamplePage, tablet, wall } from '../support/sample-page.ts'
import { visit } from '../support/visit.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

const selected = 'selected=instrument:PZ-01'
const sheets = [
  `${selected}&sheet=section&line=499950,309950+500100,309950`,
  `${selected}&sheet=profile`,
  `${selected}&sheet=history`,
  `${selected}&sheet=record`,
  'sheet=register',
  'sheet=imports',
]
// Made of the same parts as the others: looked at once in each size and each theme.
const further = [
  'selected=instrument:IC-01&sheet=record',
  'selected=point:PZ-05C/pore-pressure&sheet=what-if&whatif=60d;offset,PZ-05C/pore-pressure,2027-09-16T00:00:00Z,,1,none',
  'sheet=alerts',
  'sheet=alerts&alert=1',
  'sheet=alerts&alerts=statistics',
  'sheet=alerts&alerts=drills',
  'sheet=ground&ground=trough',
  'sheet=ground&ground=surface&layers=works+labels+contours',
]
const reviewed = 'selected=point:PZ-05C/pore-pressure&sheet=review'
// What is worked out before it can be judged, and what a person presses to get there. Every board of a meeting on the
// wall is looked at in wall.test.ts.
const workedOut: ReadonlyMap<string, string> = new Map([
  [reviewed, '.review-cause'],
  [`${reviewed}&review=neighbours`, 'table.neighbours'],
  [
    `${reviewed}&review=compare&compare=PZ-05C/pore-pressure&compare=PZ-06C/pore-pressure`,
    'table.neighbours',
  ],
  [`${reviewed}&review=patch`, 'table'],
  ['sheet=meetings', '.meetings-list'],
  ['sheet=meetings&held=2', '.minutes-list'],
  ['sheet=reports', '.reports-page h2'],
])
const pressed: ReadonlyMap<string, string> = new Map([
  ['sheet=meetings', 'Make a meeting'],
  ['sheet=reports', 'Make a report'],
])
// Looked at where they are used: the network at a desk, field work on a tablet.
const ofDesk = [
  'sheet=network&network=links&layers=works+labels+delivery',
  'sheet=network',
  'sheet=network&network=plan',
  'sheet=network&network=gateways',
  'sheet=network&network=obstruction',
]
const ofTablet = [
  'sheet=field&layers=works+labels+notes',
  'sheet=field&field=scan',
  'sheet=field&field=reading',
  'sheet=field&field=note',
  'sheet=field&field=install',
  'sheet=field&field=commission',
  'sheet=field&field=coverage',
  'sheet=field&field=memory',
  'sheet=field&field=labels',
  'sheet=field&field=outbox',
  'sheet=field&field=device',
]

// axe-core checks the rules of WCAG 2.2 A and AA that a program can check.
describe('axe finds nothing', () => {
  it.each([
    ['wall', wall, 'light'],
    ['wall', wall, 'dark'],
    ['tablet', tablet, 'light'],
    ['tablet', tablet, 'dark'],
  ] as const)(
    'on any sheet, %s, %o',
    async (_name, size, colorScheme) => {
      const { page, close } = await openSamplePage(browser, size)
      await page.emulateMedia({ colorScheme })
      const found: string[] = []
      // The other appearance has other colours; what a thing is called and how large it is does not hang on that.
      const isOnce = (size === wall) === (colorScheme === 'light')
      const look = async (where: string) => {
        // A colour that fades in is not judged half way. What is judged at all was waited for before, by name.
        await pageRests(page, { restlessMs: 800, awaitedMs: 1500 })
        const rules = isOnce ? {} : { runOnly: { type: 'rule' as const, values: ['color-contrast'] } }
        for (const { id, nodes } of await findWithAxe(page, rules))
          for (const node of nodes)
            found.push(`${where}: ${id} ${node.target.join(' ')} ${node.html.slice(0, 90)}`)
      }
      await expect
        .poll(() => page.evaluate(() => document.documentElement.dataset.theme))
        .toBe({ light: 'paper', dark: 'room' }[colorScheme])
      await look('plan alone')
      const once = size === wall ? ofDesk : ofTablet
      for (const sheet of isOnce ? [...further, ...workedOut.keys(), ...once, ...sheets] : sheets) {
        // Some series are silent on this day, so that their colours are judged too.
        // Within the page: loading it anew for every sheet took most of the time.
        await visit(page, `?at=2027-08-10T06:00:00Z&${sheet}`)
        await expect
          .poll(() => page.getByRole('tabpanel').locator('svg, table, h2, h3, nav').count(), {
            timeout: 60_000,
          })
          .toBeGreaterThan(0)
        if (once.includes(sheet)) {
          // The navigation stands there before the page itself has come.
          const panel = page.getByRole('tabpanel')
          await panel.locator('.field-page, .network-page').first().waitFor({ timeout: 60_000 })
          await expect
            .poll(() => panel.locator('.waiting').filter({ hasText: 'Fetching' }).count(), {
              timeout: 60_000,
            })
            .toBe(0)
        }
        const awaited = workedOut.get(sheet)
        if (awaited) await page.getByRole('tabpanel').locator(awaited).first().waitFor({ timeout: 60_000 })
        await look(sheet)
        const name = pressed.get(sheet)
        if (!name) continue
        await page.getByRole('tabpanel').getByRole('button', { name, exact: true }).click()
        await page.getByRole('tabpanel').locator('form').first().waitFor()
        await look(`${sheet}, ${name}`)
      }
      await page.getByLabel(/Drop a logger file here/).setInputFiles({
        name: 'bench.txt',
        mimeType: 'text/plain',
        buffer: Buffer.from('at which;SK7105 CH15\n2027-10-01 06:00;1.5\n2027-10-01 07:00;1.6\n'),
      })
      await page.getByText('Declare a layout for files like this one').click({ timeout: 30_000 })
      await page.getByLabel('Zone', { exact: true }).fill('Atlantic/Atlantis')
      await page.getByLabel('Why it is declared so').fill('to see what is said')
      await page.getByRole('button', { name: 'Declare the layout' }).click()
      await page.getByRole('alert').filter({ hasText: 'was not declared' }).waitFor()
      await page.getByText(/^Declared layouts/).click()
      await look('a layout with faults')
      await visit(page, '?selected=point:PZ-01A/pore-pressure&sheet=record')
      await page.getByRole('button', { name: 'Draft a new version' }).click({ timeout: 60_000 })
      const draft = page.getByRole('form', { name: 'Draft of a calibration' })
      await draft.getByLabel('Your name').fill('A. Tester')
      await draft.getByLabel('Why this version is needed').fill('to see how it looks')
      await draft.getByLabel('c0', { exact: true }).fill('700')
      await draft.getByRole('button', { name: 'Look at what it would change' }).click()
      await page.getByRole('button', { name: /^Save as version/ }).waitFor({ timeout: 30_000 })
      await page.getByRole('button', { name: 'Enter a verdict' }).click()
      const verdict = page.getByRole('form', { name: 'Verdict on readings' })
      // A blank fills the field for the browser; the server says that there is no reason in it.
      await verdict.getByLabel('Reason').fill(' ')
      await verdict.getByLabel('Also considered').fill('nothing else')
      await verdict.getByLabel('Your name').fill('A. Tester')
      await verdict.getByRole('radio', { name: 'doubtful' }).check()
      await verdict.getByLabel('Laid on').selectOption('sensor')
      await verdict.getByLabel('How sure').selectOption('likely')
      await verdict.getByRole('button', { name: 'Save the verdict' }).click()
      await verdict.getByText('No reason is given').waitFor({ timeout: 30_000 })
      await look('a draft of a calibration, and a verdict with a fault')
      await page.getByLabel('Appearance and keys').click()
      await look('appearance')
      expect(found).toEqual([])
      await close()
    },
    600_000,
  )
})
