import 'fake-indexeddb/auto'
import { render } from 'solid-js/web'
import { afterEach, expect, test } from 'vitest'
import { fieldDatabase } from '../../../../web/offline/field-database.ts'
import { WaitingLine } from '../../../../web/panels/field/WaitingLine.tsx'
import { readKnownEntries } from '../../../../web/state/field-work.ts'

let stop = () => {}
afterEach(() => stop())

const entry = {
  id: 'a',
  site: 'here',
  follows: [],
  body: {
    kind: 'reading' as const,
    sensor: 'WS-01/water-level',
    atEpochMs: 0,
    raw: 4.31,
    confirmedBecause: null,
  },
  author: 'Field engineer',
  device: 'a',
  sequence: 1,
  writtenAtEpochMs: 0,
  clockAheadMs: null,
  position: null,
  attachments: [],
}
const stored = (outcome: 'taken' | 'refused') => ({
  entry,
  site: 'here',
  number: 1,
  receivedAtEpochMs: 1,
  differs: false,
  sender: null,
  effect: { outcome, sentence: 'No channel was wired then.', batch: null },
  missingAttachments: [],
})
const troubles = () => [...document.querySelectorAll('.trouble')].map(({ textContent }) => textContent)

test('a reading that the server refused is told over every page of field work, as a trouble', async () => {
  const database = await fieldDatabase()
  await database.put('own', { entry, delivery: 'delivered', problem: null, deliveredAtEpochMs: 1 })
  await database.put('received', stored('refused'))
  await readKnownEntries('here')
  stop = render(() => <WaitingLine />, document.body)
  expect(troubles()).toEqual(['1 reading was not taken by the server: look into the Outbox.'])
  // The record was put right, and the server took it.
  await database.put('received', stored('taken'))
  await readKnownEntries('here')
  expect(troubles()).toEqual([])
})
