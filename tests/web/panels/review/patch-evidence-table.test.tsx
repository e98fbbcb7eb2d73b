import { render } from 'solid-js/web'
import { afterEach, expect, test } from 'vitest'
import { PatchEvidenceTable } from '../../../../web/panels/review/PatchEvidenceTable.tsx'
import { showSite, showStates } from '../../../../web/state/site-document.ts'
import { smallSite, smallStates, state } from '../../state/small-site.ts'

let stop = () => {}
afterEach(() => {
  stop()
  document.body.replaceChildren()
})

test('a series at a level in which nothing odd is told is named with its level', () => {
  const site = smallSite()
  const [one, other] = site.series
  if (!one || !other) throw new Error('two series are needed')
  const judged = [one, other].map(({ id, point }) => ({
    ...{ series: id, point, leading: [], spokenFor: [], notJudged: null },
  }))
  showSite(site)
  showStates(smallStates([state(one.series, { level: 2 }), state(other.series, { level: 0 })]))
  stop = render(
    () => <PatchEvidenceTable evidence={{ causes: [], nothingOdd: judged, notJudged: [], sentence: 's' }} />,
    document.body,
  )
  const told = () => document.querySelector('small')?.textContent ?? ''
  expect(told()).toContain(`Of them ${one.point} at ${site.facts.levelNames[1] ?? 'Level 2'}:`)
  expect(told()).not.toContain(`${other.point} at`)
  showStates(smallStates([state(one.series, { level: 0 }), state(other.series, { level: 0 })]))
  expect(document.querySelector('small')).toBeNull()
})
