import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, sampleAddress, wall } from '../support/sample-page.ts'

// What only looks wrong at the sample site (sample-site/truth/decoys.csv), as a person sees it.
let browser: Browser
let page: Page
let close: () => Promise<void>
beforeAll(async () => {
  browser = await openChromium()
  ;({ page, close } = await openSamplePage(browser, wall))
})
afterAll(async () => {
  await close()
  await browser.close()
})

interface Row {
  readonly day: string
  readonly value: number
  readonly low: number
  readonly high: number
}

const numberOf = (text = '') =>
  Number(
    text
      .replace('−', '-')
      .replace(/[^\d.-].*$/, '')
      .trim() || 'NaN',
  )

/** The table beside the readings of a series over the whole record, oldest first. */
async function readings(series: string): Promise<readonly Row[]> {
  await page.goto(`${sampleAddress()}/?selected=point:${series}&sheet=history`)
  const table = page.getByText('The same as a table')
  await table.click({ timeout: 60_000 })
  const rows = page.getByRole('tabpanel').locator('details table tr')
  await expect.poll(() => rows.count(), { timeout: 60_000 }).toBeGreaterThan(10)
  const cells = await rows.evaluateAll((all) =>
    (all as HTMLTableRowElement[])
      .slice(1)
      .map((row) => [...row.cells].map((cell) => cell.textContent ?? '')),
  )
  return cells
    .map(([day = '', , value, range = '']) => {
      const [low, high] = range.split(' to ')
      return {
        day: day.replace(/^\w+ /, '').replace('Sept', 'Sep'),
        value: numberOf(value),
        low: numberOf(low) || numberOf(value),
        high: numberOf(high) || numberOf(value),
      }
    })
    .reverse()
}

const on = (rows: readonly Row[], day: string): Row => {
  const row = rows.find((one) => one.day.startsWith(`${day} `))
  if (!row) throw new Error(`no row for ${day}; there are ${rows[0]?.day} to ${rows.at(-1)?.day}`)
  return row
}

/** The record's account of how the value at an instant was computed. */
async function trail(series: string, at: string): Promise<string> {
  await page.goto(`${sampleAddress()}/?selected=point:${series}&sheet=record&at=${at}`)
  const region = page.getByRole('region', { name: /How this was computed/ })
  await expect.poll(() => region.textContent(), { timeout: 60_000 }).toContain('Raw reading')
  return (await region.textContent()) ?? ''
}

describe('what only looks wrong can be seen for what it is', () => {
  it('D1: the clock of LG-08 runs fast: its readings are received before they were taken', async () => {
    const told = await trail('IP-01-01/inclination-a', '2027-08-29T12:00:00Z')
    expect(told).toContain('LG-08')
    const [, read = '', received = ''] =
      /Read, received\w{3} \d+ \w{3} \d{4} (\d\d:\d\d), received \w{3} \d+ \w{3} \d{4} (\d\d:\d\d)/.exec(
        told,
      ) ?? []
    const minutes = (text: string) => Number(text.slice(0, 2)) * 60 + Number(text.slice(3))
    expect(minutes(read) - minutes(received)).toBeGreaterThan(45)
  })

  it('D2: the axes of IP-02 were exchanged until 11 March: another channel then, and no step', async () => {
    const channel = (told: string) => /LG-09 channel (\w+)/.exec(told)?.[1]
    const before = channel(await trail('IP-02-03/inclination-a', '2027-03-10T12:00:00Z'))
    const after = channel(await trail('IP-02-03/inclination-a', '2027-03-12T12:00:00Z'))
    expect(before).toBeDefined()
    expect(after).not.toBe(before)
    const rows = await readings('IP-02/deflection')
    expect(Math.abs(on(rows, '10 Mar 2027').value - on(rows, '12 Mar 2027').value)).toBeLessThan(1)
  })

  it('D3: PZ-02B ends on 29 April and PZ-02B2 begins on 6 May', async () => {
    const cut = await readings('PZ-02B/pore-pressure')
    expect(cut.at(-1)?.day).toMatch(/^29 Apr 2027/)
    const fresh = await readings('PZ-02B2/pore-pressure')
    expect(fresh[0]?.day).toMatch(/^6 May 2027/)
  })

  it('D5: the stamp 00:00 of 31 October stands for two instants, an hour apart', async () => {
    const instants = []
    for (const at of ['2027-10-31T00:30:00Z', '2027-10-31T01:30:00Z']) {
      const told = await trail('CR-08/opening', at)
      instants.push(/standard uncertainty\) at ([^U]*UTC.\d\d:\d\d)/.exec(told)?.[1])
    }
    expect(instants[0]).toMatch(/31 Oct 2027 00:00 UTC\+00:00/)
    expect(instants[1]).toMatch(/31 Oct 2027 00:00 UTC.01:00/)
  })

  it('D6: SP-40 steps 6 mm between two surveys, its neighbours do not', async () => {
    const step = async (point: string) => {
      const rows = await readings(`${point}/settlement`)
      const after = rows.findIndex((row) => Date.parse(row.day) > Date.UTC(2027, 8, 20))
      return (rows[after]?.value ?? Number.NaN) - (rows[after - 1]?.value ?? Number.NaN)
    }
    expect(await step('SP-40')).toBeGreaterThan(4)
    expect(Math.abs(await step('SP-39'))).toBeLessThan(3)
    expect(Math.abs(await step('SP-41'))).toBeLessThan(3)
  })

  it('D7: 5 of 10 packets proves little, 15 of 20 more: the interval stands beside the verdict', async () => {
    await page.goto(`${sampleAddress()}/?layers=works+labels+coverage`)
    await page.getByText(/\d+ coverage tests in words/).click({ timeout: 60_000 })
    const list = page.locator('.coverage-list')
    await expect.poll(() => list.textContent()).toMatch(/5 of 10/)
    const told = (await list.textContent()) ?? ''
    // Wilson intervals: 5 of 10 is 24 to 76 %, 15 of 20 is 53 to 89 % (Brown, Cai and DasGupta 2001).
    expect(told).toMatch(/24\s*%?\s*(to|–|and)\s*76/)
    expect(told).toMatch(/53\s*%?\s*(to|–|and)\s*89/)
  })

  it('D8: the cells of LG-22 run down while those of LG-21 do not', async () => {
    const fall = async (logger: string) => {
      const rows = await readings(`${logger}/battery-voltage`)
      return (rows[0]?.value ?? 0) - (rows.at(-1)?.value ?? 0)
    }
    expect(await fall('LG-22')).toBeGreaterThan(0.5)
    expect(await fall('LG-21')).toBeLessThan(0.2)
  })

  it('D9: the front of 12 September falls in the barometer and not in a corrected pore pressure', async () => {
    const air = await readings('BA-01/barometric-pressure')
    expect(on(air, '11 Sep 2027').value - on(air, '12 Sep 2027').low).toBeGreaterThan(2)
    const clay = await readings('PZ-01A/pore-pressure')
    expect(Math.abs(on(clay, '11 Sep 2027').value - on(clay, '12 Sep 2027').value)).toBeLessThan(0.7)
  })

  it('D10: ST-02 passes 2300 kN on hot days, as load that its neighbour carries too', async () => {
    const rows = await readings('ST-02/force')
    expect(rows.filter((row) => row.high > 2300).length).toBeGreaterThan(2)
    const other = await readings('ST-03/force')
    const hottest = rows.reduce((most, row) => (row.high > most.high ? row : most))
    const beside = other.find((row) => row.day === hottest.day)
    expect((beside?.high ?? 0) - (beside?.low ?? 0)).toBeGreaterThan(80)
  })

  it('D4, D11, D12: a second route, a broken file and a stranger are in the list of files', async () => {
    await page.goto(`${sampleAddress()}/?sheet=imports`)
    const files = page.getByRole('article')
    await expect.poll(() => files.count(), { timeout: 60_000 }).toBeGreaterThan(300)
    const told = await files.allInnerTexts()
    const counts = (text = '', what: string) =>
      Number(new RegExp(`${what}\\s*([\\d,]+)`).exec(text)?.[1]?.replaceAll(',', ''))
    const modem = told.find((text) => text.startsWith('memory_SK7103'))
    expect(counts(modem, 'repeated')).toBeGreaterThan(100)
    const broken = told.filter((text) => text.startsWith('east_network_20270517'))
    expect(broken).toHaveLength(2)
    expect(broken.some((text) => counts(text, 'quarantined') > 10)).toBe(true)
    const stranger = files.filter({ hasText: 'dock_network_20270719' }).first()
    await stranger.getByRole('button', { name: 'Show quarantine' }).click()
    await expect.poll(() => page.getByRole('tabpanel').textContent(), { timeout: 30_000 }).toMatch(/SK7190/)
  })
})
