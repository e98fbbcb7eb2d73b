import 'fake-indexeddb/auto'
import { render } from 'solid-js/web'
import { afterEach, expect, test, vi } from 'vitest'
import { fieldDatabase } from '../../../../web/offline/field-database.ts'
import { SideBySide } from '../../../../web/panels/field/SideBySide.tsx'
import { readKnownEntries } from '../../../../web/state/field-work.ts'

let stop = () => {}
afterEach(() => stop())

const entry = (id: string, author: string, received: number) => ({
  id,
  site: 'here',
  follows: [],
  body: {
    kind: 'coverage-test' as const,
    test: 'CT-1',
    atEpochMs: 0,
    mode: 'with-internet' as const,
    logger: 'LG-05',
    eastingMetres: 0,
    northingMetres: 0,
    accuracyMetres: 1,
    factors: [{ spreadingFactor: 9, sent: 20, received, signalDbm: null }],
  },
  author,
  device: 'a',
  sequence: received,
  writtenAtEpochMs: received,
  clockAheadMs: null,
  position: null,
  attachments: [],
})

test('a decision that a full device did not keep is told as one that was not kept', async () => {
  const database = await fieldDatabase()
  for (const one of [entry('a', 'One', 15), entry('b', 'Two', 6)])
    await database.put('own', { entry: one, delivery: 'delivered', problem: null, deliveredAtEpochMs: 1 })
  await readKnownEntries('here')
  stop = render(() => <SideBySide />, document.body)
  for (const [at, text] of ['The lid was open.', 'Field engineer'].entries()) {
    const input = document.querySelectorAll('input')[at] as HTMLInputElement
    input.value = text
    input.dispatchEvent(new Event('input', { bubbles: true }))
  }
  const refusal = vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError')
  })
  document.querySelector('button')?.click()
  await vi.waitFor(() =>
    expect(document.querySelector('[role=alert]')?.textContent).toMatch(
      /^Nothing was kept: there is no room left on this device/,
    ),
  )
  refusal.mockRestore()
})
