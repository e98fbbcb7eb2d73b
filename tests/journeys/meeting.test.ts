import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { boardKinds } from '#domain/meeting/meeting.ts'
import { boardKindNames } from '../../web/panels/meetings/board-kind-names.ts'
import { bringLaterData } from '../support/bring-later-data.ts'
import { openChromium } from '../support/open-chromium.ts'
import { startOwnServer } from '../support/own-server.ts'
import { pageRests } from '../support/page-rests.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'
import { sweep } from '../support/sweep.ts'
import { textsOfBoard } from '../support/texts-of-board.ts'

let browser: Browser
let server: Awaited<ReturnType<typeof startOwnServer>>
beforeAll(async () => {
  server = await startOwnServer('meeting-data')
  browser = await openChromium()
})
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

const title = 'Client meeting for October'
const action = 'Read the tip of PZ-05C by hand beside the logger'
/** What somebody looked at for each kind of board. */
const seen: Readonly<Record<(typeof boardKinds)[number], string>> = {
  plan: 'sheet=register',
  section: 'sheet=section&line=500012,309930+500050,310036',
  profile: 'selected=instrument:PZ-05&sheet=profile',
  history: 'selected=point:PZ-05C/pore-pressure',
  change: 'sheet=register&layers=works+labels+change&since=2027-09-27T18:00:00Z',
  exceedances: 'sheet=alerts',
  network: 'sheet=network',
  minutes: 'sheet=meetings',
}

it('shows the same facts whatever comes in later, and leaves an action with its point', async () => {
  const desk = await openSamplePage(browser, wall, '?sheet=meetings', server.address)
  await makeMeeting(desk.page)
  await putBoardsOfEveryKind(desk.page)
  await writeAction(desk.page)
  const link = await desk.page.getByRole('link', { name: 'Open on the wall' }).getAttribute('href')
  expect(desk.faults).toEqual([])
  await desk.close()

  const first = await openWall(`${server.address}/${link}`)
  await turnByKeysAndSwipe(first.page)
  const before = await readBoards(first.page)
  await first.close()
  expect(before.map(({ kind }) => kind).filter((kind, at, all) => kind !== all[at - 1])).toEqual(boardKinds)
  expect(JSON.stringify(before)).toContain(action)

  const receipt = await bringLaterData(server.address)
  expect(receipt.accepted).toBe(5)

  const second = await openWall(`${server.address}/${link}`)
  const after = await readBoards(second.page)
  await second.close()
  expect(after.map(({ board, texts }) => [board, texts])).toEqual(
    before.map(({ board, texts }) => [board, texts]),
  )
  const told = (kind: string) => after.find((one) => one.kind === kind)?.since ?? ''
  expect(told('history')).toMatch(
    /^Not in these data, since they were frozen before: [3-9]\d* readings from before the cut-off, the last received .*; the calibration of PZ-05C was corrected.*\.$/,
  )
  expect(told('plan')).toContain('calibration of PZ-05C was corrected')
  for (const { kind, since } of before) expect(since, kind).not.toContain('PZ-05C')
  for (const { asked } of [first, second]) expect(asked.filter(isBeyondFrozen)).toEqual([])

  const query = '?selected=point:PZ-05C/pore-pressure&sheet=record'
  const record = await openSamplePage(browser, wall, query, server.address)
  const minutes = record.page.getByRole('region', { name: 'From meetings' })
  await expect.poll(() => minutes.textContent(), { timeout: 60_000 }).toContain(action)
  expect(await minutes.textContent()).toMatch(/Instrumentation engineer[\s\S]*Client meeting for October/)
  await record.close()
}, 600_000)

async function makeMeeting(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Make a meeting' }).click({ timeout: 60_000 })
  const form = page.getByRole('form', { name: 'Make a meeting' })
  await form.getByLabel('Title').fill(title)
  await form.getByLabel('Held').fill('2027-11-02T09:00')
  // The site's clock is an hour behind UTC again since that morning.
  await form.getByLabel('Data as received by').fill('2027-10-31T17:00')
  await form.getByLabel('Your name').fill('A. Tester')
  await form.getByRole('button', { name: 'Freeze the data and make it' }).click()
  await page.getByRole('article', { name: title }).waitFor({ timeout: 180_000 })
}

/** Gathers a view for each kind, then takes away the boards that the meeting before had left. */
async function putBoardsOfEveryKind(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Boards, / }).click()
  const inherited = await page.locator('.meeting-boards > li').count()
  await page.getByRole('button', { name: 'Gather views' }).click()
  const strip = page.getByRole('region', { name: 'Gathering views for a meeting' })
  for (const [at, kind] of boardKinds.entries()) {
    await page.evaluate((query) => {
      history.pushState(null, '', `?${query}`)
      dispatchEvent(new PopStateEvent('popstate'))
    }, `site=skarrow-quay&${seen[kind]}`)
    await strip.getByRole('button', { name: 'Put what I see on a board' }).click()
    const form = strip.getByRole('form', { name: 'Board of what is seen' })
    expect(await form.getByLabel('Shows').locator('option:checked').textContent()).toBe(boardKindNames[kind])
    await form.getByLabel('Title').fill(`Of the kind ${kind}`)
    await form.getByRole('button', { name: 'Put it on' }).click()
    await form.waitFor({ state: 'detached', timeout: 30_000 })
    await strip.getByText(`${inherited + at + 1} boards`).waitFor()
  }
  await strip.getByRole('button', { name: new RegExp(title) }).click()
  await page.getByRole('button', { name: /^Boards, / }).click()
  const boards = page.getByRole('form', { name: 'Boards of the meeting' })
  for (let left = inherited; left > 0; left--)
    await boards.getByRole('button', { name: /^Remove board 1,/ }).click()
  await boards.getByRole('button', { name: 'Save the boards' }).click()
  await boards.getByText('changed and not saved').waitFor({ state: 'detached', timeout: 30_000 })
  await page.getByRole('button', { name: `Boards, ${boardKinds.length}` }).waitFor()
}

async function writeAction(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Minutes and actions, / }).click()
  await page.getByRole('button', { name: 'Write something down' }).click()
  const form = page.getByRole('form', { name: 'Write down' })
  await form.getByLabel('What is to be done').fill(action)
  await form.getByLabel('About').fill('PZ-05C')
  await form.getByLabel('About').press('Enter')
  await form.getByRole('button', { name: 'Take PZ-05C away' }).waitFor()
  await form.getByLabel('Who does it').fill('Instrumentation engineer')
  await form.getByLabel('By which day').fill('2027-11-09')
  await form.getByRole('button', { name: 'Save the action' }).click()
  await form.waitFor({ state: 'detached', timeout: 30_000 })
}

async function openWall(address: string) {
  const context = await browser.newContext({ viewport: wall, hasTouch: true })
  const page = await context.newPage()
  const asked: string[] = []
  page.on('request', (request) => asked.push(new URL(request.url()).pathname))
  await page.goto(address)
  await page.locator('.wall-head h1').filter({ hasText: 'Of the kind plan' }).waitFor()
  // Until the alerts of the set are there it says that it does not know them.
  await expect
    .poll(() => page.locator('.wall').textContent(), { timeout: 60_000 })
    .not.toContain('a level watches is not known')
  // Led by hand: a slow machine must not be overtaken by the clock of the boards.
  await page.keyboard.press('p')
  return { page, asked, close: () => context.close() }
}

/** A common presenter sends page keys, and a finger on the wall sweeps; both come back to the first board. */
async function turnByKeysAndSwipe(page: Page): Promise<void> {
  const board = () => new URL(page.url()).searchParams.get('board')
  await page.keyboard.press('PageDown')
  await expect.poll(board).toBe('2')
  await page.keyboard.press('PageUp')
  await expect.poll(board).toBe('1')
  await page.keyboard.press('End')
  await expect.poll(board).toBe(String(boardKinds.length))
  await page.keyboard.press('Home')
  await expect.poll(board).toBe('1')
  await sweep(page, 1300, 700)
  await expect.poll(board).toBe('2')
  await sweep(page, 700, 1300)
  await expect.poll(board).toBe('1')
}

interface ReadBoard {
  /** Board and page, as the head counts them. */
  readonly board: string
  readonly kind: string
  readonly texts: readonly string[]
  /** What is told to have changed since; empty: nothing. */
  readonly since: string
}

/** Every page of every board, in order, once nothing on it is awaited any more. */
async function readBoards(page: Page): Promise<readonly ReadBoard[]> {
  const read: ReadBoard[] = []
  for (;;) {
    await settle(page)
    const since = (await page.locator('.wall-since').allTextContents()).join(' ')
    const texts = (await textsOfBoard(page)).map(({ text }) => text).filter((text) => text !== since)
    read.push({
      board: (await page.locator('.wall-count').textContent()) ?? '',
      kind: (await page.locator('.wall-board').getAttribute('data-kind')) ?? '',
      texts,
      since,
    })
    const here = page.url()
    await page.keyboard.press('PageDown')
    const isTurned = await page
      .waitForURL(({ href }) => href !== here, { timeout: 3000, waitUntil: 'commit' })
      .then(
        () => true,
        () => false,
      )
    if (!isTurned) return read
    await pageRests(page)
  }
}

const awaited =
  /Fetching|being worked out|being fetched|being drawn|being opened|being held|asked for|starting it|not known yet/

async function settle(page: Page): Promise<void> {
  let last = ''
  await expect
    .poll(
      async () => {
        const text = (await page.locator('.wall').textContent()) ?? ''
        const measured = (await page.locator('.row-pages.measuring').count()) === 0
        const isStill = text === last && measured && !awaited.test(text)
        last = text
        return isStill || text.slice(0, 300)
      },
      { timeout: 120_000, interval: 250 },
    )
    .toBe(true)
}

/** Of the site: whatever is neither in a frozen set nor the record of a meeting. */
const isBeyondFrozen = (path: string): boolean =>
  (path.startsWith('/api/sites/') && !/^\/api\/sites\/[^/]+\/(frozen|meetings|minutes)(\/|$)/.test(path)) ||
  (path.startsWith('/slices/') && !/^\/slices\/[^/]+\/frozen\//.test(path)) ||
  path.startsWith('/api/audit')
