import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { findWithAxe } from '../support/find-with-axe.ts'
import { frozenMeetings } from '../support/frozen-meetings.ts'
import { openChromium } from '../support/open-chromium.ts'
import { pageRests } from '../support/page-rests.ts'
import { sampleAddress } from '../support/sample-page.ts'
import { sweep } from '../support/sweep.ts'
import { textsOfBoard } from '../support/texts-of-board.ts'

let browser: Browser
let meeting: Meeting
beforeAll(async () => {
  browser = await openChromium()
  meeting = (await frozenMeetings()).at(-1) as Meeting
  // A board of every kind.
  expect(new Set(meeting.boards.map(({ kind }) => kind)).size).toBe(8)
})
afterAll(() => browser.close())

const wall = { width: 1920, height: 1080 }

async function openWall(board: number, viewport = wall, colorScheme: 'light' | 'dark' = 'light') {
  const context = await browser.newContext({ viewport, colorScheme, hasTouch: true })
  const page = await context.newPage()
  const asked: string[] = []
  page.on('request', (request) => asked.push(new URL(request.url()).pathname))
  await page.goto(`${sampleAddress()}/?site=skarrow-quay&meeting=${meeting.id}&board=${board}`)
  await page
    .locator('.wall-head h1')
    .filter({ hasText: meeting.boards[board - 1]?.title ?? '' })
    .waitFor()
  // Led by hand: a slow machine must not be overtaken by the clock of the boards.
  await page.keyboard.press('p')
  return { page, asked, close: () => context.close() }
}

/** Waits until a board has what it shows: nothing is awaited any more, and its rows are on their pages. */
async function settle(page: Page): Promise<void> {
  await expect
    .poll(
      () =>
        page.evaluate(() => {
          const text = document.querySelector('.wall')?.textContent ?? ''
          return /Fetching|being worked out|being fetched|being drawn|being opened|asked for|starting it/.test(
            text,
          )
            ? text.slice(0, 200)
            : document.querySelectorAll('.row-pages.measuring').length
        }),
      { timeout: 90_000 },
    )
    .toBe(0)
  await pageRests(page)
}

const boardOf = (page: Page) => page.evaluate(() => Number(new URLSearchParams(location.search).get('board')))

describe('boards of a meeting', () => {
  // A fortieth of the height at five metres: common practice, no published source.
  it('have no text under a fortieth of the screen, and nothing beyond it', async () => {
    const { page, close } = await openWall(1)
    const faults: string[] = []
    for (const [place, { kind }] of meeting.boards.entries()) {
      if (place > 0) await goToBoard(page, place + 1)
      for (const size of [wall, { width: 1280, height: 720 }, { width: 3840, height: 2160 }]) {
        await page.setViewportSize(size)
        await pageRests(page)
        await settle(page)
        const texts = await textsOfBoard(page)
        expect(texts.length, `${kind} shows something`).toBeGreaterThan(10)
        for (const { text, of, pixels, left, right, top, bottom, panel } of texts) {
          const where = `${kind} ${size.width}: ${of} "${text.slice(0, 40)}"`
          if (pixels < size.height / 40) faults.push(`${where} is ${pixels.toFixed(1)} px`)
          if (left < -1 || right > size.width + 1 || top < -1 || bottom > size.height + 1)
            faults.push(`${where} lies beyond the screen`)
          if (
            panel &&
            (left < panel.left - 1 ||
              right > panel.right + 1 ||
              top < panel.top - 1 ||
              bottom > panel.bottom + 1)
          )
            faults.push(`${where} is cut off by its panel`)
        }
        const wide = await page.evaluate(() => document.documentElement.scrollWidth)
        if (wide > size.width) faults.push(`${kind} is ${wide} wide`)
      }
    }
    expect(faults).toEqual([])
    await close()
  }, 600_000)

  it.each(['light', 'dark'] as const)(
    'give axe nothing to find in a %s room, contrast of 7 to 1 included',
    async (room) => {
      const { page, close } = await openWall(1, wall, room)
      const found: string[] = []
      for (const [place, { kind }] of meeting.boards.entries()) {
        if (place > 0) await goToBoard(page, place + 1)
        await settle(page)
        // `color-contrast-enhanced` is WCAG 2.2, 1.4.6.
        const violations = await findWithAxe(page, {
          rules: { 'color-contrast-enhanced': { enabled: true } },
        })
        for (const { id, nodes } of violations)
          for (const node of nodes) found.push(`${kind}: ${id} ${node.html.slice(0, 90)}`)
      }
      expect(found).toEqual([])
      await close()
    },
    600_000,
  )

  it('give a drawing the height that there is, keep its texts within it, and say what fits beside or under it', async () => {
    const { page, close } = await openWall(1)
    const drawings = meeting.boards.map(({ kind }, at) => ({ kind, board: at + 1 }))
    const shares: Record<string, number[][]> = {}
    for (const { kind, board } of drawings.filter(({ kind }) => /section|profile|history/.test(kind))) {
      await goToBoard(page, board)
      await settle(page)
      const { cut, panes, said } = await page.evaluate(() => {
        const drawing = document.querySelector('.wall .view-drawing')?.getBoundingClientRect()
        const room = document.querySelector('.board-room')?.getBoundingClientRect().height ?? 0
        const texts = [...document.querySelectorAll('.wall .view-drawing text')]
        return {
          cut: texts
            .filter((text) => {
              const { left, right, top, bottom } = text.getBoundingClientRect()
              if (!drawing) return true
              return (
                left < drawing.left - 2 ||
                right > drawing.right + 2 ||
                top < drawing.top - 2 ||
                bottom > drawing.bottom + 2
              )
            })
            .map((text) => text.textContent),
          panes: [...document.querySelectorAll('.wall .view-drawing .pane')].map(
            (pane) => pane.getBoundingClientRect().height / room,
          ),
          said: document.querySelector('.wall .view-remarks')?.textContent ?? '',
        }
      })
      expect(cut, `${kind}, board ${board}`).toEqual([])
      shares[kind] = [...(shares[kind] ?? []), panes]
      if (kind === 'profile') {
        expect(said).toContain('added up from the toe')
        expect(said).not.toMatch(/more remarks? stand/)
      }
    }
    for (const [share] of shares.profile ?? []) expect(share).toBeGreaterThan(0.45)
    const twoPanes = shares.history?.filter((panes) => panes.length === 2) ?? []
    expect(twoPanes).toHaveLength(1)
    for (const share of twoPanes.flat()) expect(share).toBeGreaterThan(0.18)
    await close()
  }, 240_000)

  it('stand on every board with cut-off, provisional share, meeting, cautions and watermark', async () => {
    const { page, close } = await openWall(1)
    for (const [place] of meeting.boards.entries()) {
      if (place > 0) await goToBoard(page, place + 1)
      // Whose data they are is known with the site, a moment after the meeting.
      await page
        .locator('.wall-foot')
        .filter({ hasText: /invented/i })
        .waitFor({ timeout: 60_000 })
      const foot = (await page.locator('.wall-foot').textContent()) ?? ''
      expect(foot).toContain(meeting.title)
      expect(foot).toMatch(/Data as received by .*27 Sep 2027 18:00 UTC/)
      expect(foot).toMatch(/% of [\d\u2009]+ readings not approved/)
      expect(foot).toContain('does not replace the judgement of the responsible engineer')
      expect(foot).toMatch(/No alert does not mean no movement: \d+ of \d+ channels|not known yet/)
      expect(foot.toLowerCase()).toContain('invented')
      await expect.poll(() => page.locator('.wall-foot').isVisible()).toBe(true)
    }
    await close()
  }, 240_000)

  it('follow the keys of a presenter, sweeps and the browser’s Back', async () => {
    const { page, close } = await openWall(3)
    await settle(page)
    const boards = meeting.boards.length
    await page.keyboard.press('PageDown')
    await expect.poll(() => boardOf(page)).toBe(4)
    await page.keyboard.press('PageUp')
    await expect.poll(() => boardOf(page)).toBe(3)
    await page.keyboard.press('Home')
    await expect.poll(() => boardOf(page)).toBe(1)
    await page.goBack()
    await expect.poll(() => boardOf(page)).toBe(3)
    await page.keyboard.press('End')
    await expect.poll(() => boardOf(page)).toBe(boards)
    await page.keyboard.press('Home')
    await page.keyboard.press('.')
    await expect.poll(() => page.locator('.wall-dark').isVisible()).toBe(true)
    await page.keyboard.press('b')
    await expect.poll(() => page.locator('.wall-dark').count()).toBe(0)
    expect(await boardOf(page)).toBe(1)
    await page.getByRole('button', { name: /^Next board/ }).click()
    await expect.poll(() => boardOf(page)).toBe(2)
    await sweep(page, 1200, 700)
    await expect.poll(() => boardOf(page)).toBe(3)
    await sweep(page, 700, 1200)
    await expect.poll(() => boardOf(page)).toBe(2)
    await close()
  }, 180_000)

  it('run on one clock that does not pass the cut-off, and ask nothing outside the frozen set', async () => {
    const { page, asked, close } = await openWall(1)
    await settle(page)
    const instant = () => page.locator('.wall-instant time').getAttribute('datetime')
    const cutOff = new Date(meeting.cutOffEpochMs).toISOString()
    expect(await instant()).toBe(cutOff)
    const range = page.getByRole('slider', { name: 'Clock of works and readings' })
    await range.press('Home')
    await expect.poll(async () => ((await instant()) ?? '') < '2027-03-01').toBe(true)
    await range.press('End')
    await expect.poll(instant).toBe(cutOff)
    await range.press('ArrowLeft')
    await page.locator('.wall-head h1').click()
    await page.keyboard.press('k')
    await expect.poll(instant, { timeout: 20_000 }).toBe(cutOff)
    await page.waitForTimeout(1500)
    expect(await instant()).toBe(cutOff)
    for (let board = 2; board <= meeting.boards.length; board++) await goToBoard(page, board)
    await settle(page)
    await page.keyboard.press('Escape')
    await page.getByText('Back to present data').waitFor({ timeout: 60_000 })
    expect(await page.evaluate(() => new URLSearchParams(location.search).get('frozen'))).toBe(
      meeting.frozenSet,
    )
    await page.waitForTimeout(6000)
    const outside = asked
      .filter((path) => path.startsWith('/api/sites/') || path.startsWith('/slices/'))
      .filter((path) => !/^\/api\/sites\/[^/]+\/(frozen|meetings|minutes)(\/|$)/.test(path))
      .filter((path) => !/^\/slices\/[^/]+\/frozen\//.test(path))
    expect(outside).toEqual([])
    await close()
  }, 240_000)
})

/** Within the page, as Back and Forward go. */
async function goToBoard(page: Page, board: number): Promise<void> {
  await page.evaluate((wanted) => {
    const query = new URLSearchParams(location.search)
    query.set('board', String(wanted))
    query.delete('page')
    history.pushState(null, '', `?${query}`)
    dispatchEvent(new PopStateEvent('popstate'))
  }, board)
  await page
    .locator('.wall-head h1')
    .filter({ hasText: meeting.boards[board - 1]?.title ?? '' })
    .waitFor()
}
