import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SiteDocument } from '#contract/site-document.ts'
import { palettes } from '../../web/ui/palettes.ts'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, sampleAddress, wall } from '../support/sample-page.ts'
import { visit } from '../support/visit.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

type Colour = readonly [red: number, green: number, blue: number]

const zoom = 20
/** On 10 August 2027 one mark has no current survey, and the bowl at SP-31 has passed its second level. */
const at = '2027-08-10T06:00:00Z'
const points = {
  within: 'SP-20',
  first: 'SP-32',
  second: 'SP-31',
  late: 'SP-09',
  'no level': 'PZ-03',
} as const

describe('states on the plan', () => {
  it('differ in colour and in grey, and a late point has nothing of a current one', async () => {
    const document = (await (await fetch(`${sampleAddress()}/api/sites/skarrow-quay`)).json()) as SiteDocument
    const colours = new Map<keyof typeof points, Colour>()
    /** Share of a symbol's pixels that have the colour of within levels. */
    const shares = new Map<keyof typeof points, number>()
    const hex = palettes.paper.withinLevels
    const within = [1, 3, 5].map((from) =>
      Number.parseInt(hex.slice(from, from + 2), 16),
    ) as unknown as Colour
    const { page, close } = await openSamplePage(browser, wall, `?at=${at}`)
    let shown = await shotOfMiddle(page)
    for (const [state, id] of Object.entries(points) as [keyof typeof points, string][]) {
      const found = document.points.find((point) => point.instrument === id)
      if (!found) throw new Error(`${id} is not at the site`)
      await visit(page, `?at=${at}&layers=&view=${found.longitude},${found.latitude},${zoom},0`)
      const seen = await symbolInTheMiddle(page, within, shown)
      shown = seen.shot
      colours.set(state, seen.mean)
      shares.set(state, seen.share)
    }
    expect(shares.get('within'), 'share of the colour of within levels').toBeGreaterThan(0.3)
    expect(shares.get('late')).toBe(0)
    expect(shares.get('no level')).toBe(0)
    const of = (state: keyof typeof points) => colours.get(state) as Colour
    const told = JSON.stringify([...colours])
    for (const [one, other] of [
      ['within', 'first'],
      ['within', 'second'],
      ['within', 'no level'],
      ['first', 'second'],
      ['late', 'first'],
      ['late', 'second'],
    ] as const) {
      expect(distance(of(one), of(other)), `${one} and ${other}: ${told}`).toBeGreaterThan(40)
    }
    for (const [one, other] of [
      ['within', 'first'],
      ['within', 'no level'],
      ['first', 'second'],
    ] as const) {
      expect(
        Math.abs(grey(of(one)) - grey(of(other))),
        `${one} and ${other} in grey: ${told}`,
      ).toBeGreaterThan(12)
    }
    await close()
  })
})

const distance = (one: Colour, other: Colour) =>
  Math.hypot(...one.map((value, at) => value - (other[at] as number)))

/** Relative luminance by the weights of ITU-R BT.709, on the scale of the colours. */
const grey = ([red, green, blue]: Colour) => 0.2126 * red + 0.7152 * green + 0.0722 * blue

/**
 * Mean colour of the symbol in the middle of the plan, and the share of its pixels that are near a colour; once the
 * plan has left what was shown before and rests.
 */
async function symbolInTheMiddle(
  page: Page,
  near: Colour,
  before: string,
): Promise<{ mean: Colour; share: number; shot: string }> {
  let shot = ''
  await expect
    .poll(
      async () => {
        const last = shot
        shot = await shotOfMiddle(page)
        return shot === last && shot !== before
      },
      { timeout: 30_000, interval: 600 },
    )
    .toBe(true)
  const pixels = await page.evaluate(async (url) => {
    const image = new Image()
    image.src = url
    await image.decode()
    const canvas = document.createElement('canvas')
    canvas.width = image.width
    canvas.height = image.height
    const context = canvas.getContext('2d')
    if (!context) throw new Error('no canvas')
    context.drawImage(image, 0, 0)
    return [...context.getImageData(0, 0, image.width, image.height).data]
  }, `data:image/png;base64,${shot}`)
  const colours: Colour[] = []
  for (let at = 0; at < pixels.length; at += 4) colours.push(pixels.slice(at, at + 3) as unknown as Colour)
  const mean = [0, 1, 2].map((part) =>
    Math.round(colours.reduce((sum, colour) => sum + (colour[part] as number), 0) / colours.length),
  ) as unknown as Colour
  const share = colours.filter((colour) => distance(colour, near) < 24).length / colours.length
  return { mean, share, shot }
}

/** What is drawn in the middle of the plan, as a PNG in base64. */
async function shotOfMiddle(page: Page): Promise<string> {
  const box = await page.getByRole('application', { name: 'Site plan' }).boundingBox()
  if (!box) throw new Error('no plan')
  const half = 9
  const [x, y] = [box.x + box.width / 2 - half, box.y + box.height / 2 - half]
  const shot = await page.screenshot({ clip: { x, y, width: 2 * half, height: 2 * half } })
  return shot.toString('base64')
}
