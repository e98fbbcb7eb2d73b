import { expect, test } from 'vitest'
import { noneOpenSentence } from '../../../../web/panels/alerts/none-open-sentence.ts'

const old = { kind: 'last-known', sentence: 'Alerts as last heard 2 h ago.' } as const
const past = { isPast: true, mayLack: false }

test('that none was open is not said further back than the list reaches, nor without its age', () => {
  expect(noneOpenSentence({ kind: 'present' }, { isPast: true, mayLack: true }, false)).toContain(
    'is not known',
  )
  expect(noneOpenSentence(old, past, false)).toContain('as last heard 2 h ago')
  expect(noneOpenSentence({ kind: 'present' }, past, false)).toBe(
    'None was open at the clock, by what is on record now.',
  )
  expect(noneOpenSentence({ kind: 'present' }, null, false)).toContain('says nothing of channels')
  expect(noneOpenSentence({ kind: 'present' }, null, true)).toContain('Yet a level is reached')
})
