import { render } from 'solid-js/web'
import { afterEach, expect, test } from 'vitest'
import type { Evidence, HistoryPicture } from '#domain/review/evidence.ts'
import { EvidenceLines } from '../../../../web/panels/review/EvidenceLines.tsx'
import { networkPage, openNetworkPage } from '../../../../web/state/network-page.ts'
import { selection } from '../../../../web/state/selection.ts'
import { openSheet, sheetTab } from '../../../../web/state/sheet.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { reviewSite } from '../../derived/review/review-site.ts'

let stop = () => {}
afterEach(() => stop())

test('a line about a logger leads to it in the network; one about readings shows them, with its interval in its sentence', () => {
  const site = reviewSite()
  showSite(site)
  openSheet('review')
  openNetworkPage('links')
  const logger = site.loggers[0]?.id ?? ''
  const history: HistoryPicture = { kind: 'history', series: ['a/tilt'], fromEpochMs: 0, untilEpochMs: 1 }
  const line = { rule: 'made', cause: 'radio', stands: 'for', decibans: 5, figure: null } as const
  const evidence: readonly Evidence[] = [
    { ...line, sentence: 'It went silent too.', picture: { kind: 'network', logger } },
    {
      ...line,
      sentence: 'It fell. Change, 95 %: −2.00 to −1.00 mm, by 30 means of a day.',
      picture: history,
    },
  ]
  const asked: (HistoryPicture | null)[] = []
  const place = document.createElement('div')
  document.body.append(place)
  const dispose = render(
    () => <EvidenceLines evidence={evidence} shown={null} show={(picture) => asked.push(picture)} />,
    place,
  )
  stop = () => {
    dispose()
    place.remove()
  }
  const [network, show] = [...place.querySelectorAll('button')]
  expect(place.textContent).toContain('95 %: −2.00 to −1.00 mm')
  show?.click()
  expect(asked).toEqual([history])
  expect(network?.getAttribute('aria-label')).toBe(`Show ${logger} in the network: It went silent too.`)
  network?.click()
  expect([sheetTab(), networkPage()]).toEqual(['network', 'condition'])
  expect(selection()).toMatchObject({ point: logger })
})
