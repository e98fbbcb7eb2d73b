import { render } from 'solid-js/web'
import { afterEach, expect, test, vi } from 'vitest'
import type { Proposals } from '../../../../web/panels/levels/create-proposals.ts'
import { LevelFile } from '../../../../web/panels/levels/LevelFile.tsx'
import { showSite } from '../../../../web/state/site-document.ts'
import { levelFor } from '../../../support/level-for.ts'
import { smallSite } from '../../state/small-site.ts'

let stop = () => {}
afterEach(() => {
  stop()
  vi.unstubAllGlobals()
  vi.restoreAllMocks()
})

/** What is saved: its name and its bytes. */
async function saved(site: ReturnType<typeof smallSite>) {
  showSite(site)
  const blobs: Blob[] = []
  const names: string[] = []
  vi.stubGlobal(
    'URL',
    Object.assign(Object.create(URL), {
      createObjectURL: (blob: Blob) => `blob:${blobs.push(blob)}`,
      revokeObjectURL: () => {},
    }),
  )
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    names.push(this.download)
  })
  stop = render(() => <LevelFile proposals={{} as Proposals} done={() => {}} />, document.body)
  ;[...document.querySelectorAll('button')]
    .find(({ textContent }) => textContent?.startsWith('Save'))
    ?.click()
  const bytes = await new Promise<Uint8Array>((resolve) => {
    const reader = new FileReader()
    reader.onload = () => resolve(new Uint8Array(reader.result as ArrayBuffer))
    reader.readAsArrayBuffer(blobs[0] as Blob)
  })
  return { name: names[0], bytes, text: new TextDecoder('utf-8').decode(bytes) }
}

test('levels that are saved say whose they are, that a site is invented, and the unit of each value, in UTF-8', async () => {
  const site = { ...smallSite(), triggerLevels: [levelFor({ series: 'PZ-1A/pore-pressure', value: 40 })] }
  const { name, bytes, text } = await saved(site)
  expect(name).toBe('small-trigger-levels-invented-data.csv')
  // The byte order mark of UTF-8 (Unicode 16.0, 2.6), by which spreadsheets tell it.
  expect([...bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf])
  expect(text).toContain(',40,kPa,')
  expect(text).toMatch(/,\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z,/)
})

test('those of a true site are not said to be invented', async () => {
  const site = smallSite()
  const { name } = await saved({ ...site, facts: { ...site.facts, invented: false } })
  expect(name).toBe('small-trigger-levels.csv')
})
