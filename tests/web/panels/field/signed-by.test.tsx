import 'fake-indexeddb/auto'
import { render } from 'solid-js/web'
import { afterEach, expect, test, vi } from 'vitest'
import { createSigning, type Signing } from '../../../../web/panels/field/create-signing.ts'
import { SignedBy } from '../../../../web/panels/field/SignedBy.tsx'

let stop = () => {}
let restore = () => {}
afterEach(() => {
  stop()
  restore()
})

const said = () => document.querySelector('[role=status]')?.textContent
const told = () => document.querySelector('[role=alert]')?.textContent
const draft = {
  site: 'here',
  body: { kind: 'note' as const, about: 'PZ-01', atEpochMs: 0, text: 'lid gone' },
}

test('what was said of one that was kept is not left standing over one that was not', async () => {
  let signing: Signing | undefined
  stop = render(() => {
    signing = createSigning()
    return <SignedBy signing={signing} keep="Keep this note" />
  }, document.body)
  const name = document.querySelector('input') as HTMLInputElement
  name.value = 'Field engineer'
  name.dispatchEvent(new Event('input', { bubbles: true }))
  expect(signing?.hinder(null)).toBe(false)
  expect(await signing?.keep(draft, 'Kept on this device.')).toBe(true)
  expect(said()).toBe('Kept on this device.')
  expect(told()).toBeUndefined()

  // The browser's own refusal stands in for a full device.
  const refusal = vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError')
  })
  restore = () => refusal.mockRestore()
  expect(await signing?.keep(draft, 'Kept on this device.')).toBe(false)
  expect(said()).toBeUndefined()
  expect(told()).toMatch(/^Nothing was kept: there is no room left on this device/)
  restore()

  expect(await signing?.keep(draft, 'Kept on this device.')).toBe(true)
  expect(signing?.hinder('Write what you saw, or add a photo.')).toBe(true)
  expect(said()).toBeUndefined()
  expect(told()).toBe('Write what you saw, or add a photo.')
})
