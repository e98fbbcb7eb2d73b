import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { ReceiverRecords } from '../../../web/panels/ReceiverRecords.tsx'

let stop = () => {}
let answers: Response[] = []
const asked: string[] = []

beforeEach(() => {
  localStorage.clear()
  answers = []
  asked.length = 0
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path)
    return answers.shift()
  })
  stop = render(() => <ReceiverRecords site="test-quay" />, document.body)
})
afterEach(() => {
  stop()
  vi.unstubAllGlobals()
})

const input = (type: string) =>
  document.querySelector(type === 'file' ? 'input[type=file]' : 'input:not([type])') as HTMLInputElement
const write = (name: string) => {
  input('text').value = name
  input('text').dispatchEvent(new Event('input', { bubbles: true }))
}
const choose = () => {
  Object.defineProperty(input('file'), 'files', {
    configurable: true,
    value: [new File(['x'], 'receiver.csv')],
  })
  input('file').dispatchEvent(new Event('change', { bubbles: true }))
}
const shown = () => document.body.textContent ?? ''

test('a record is signed, and what was taken of it is told', async () => {
  choose()
  await vi.waitFor(() => expect(shown()).toContain('Write your name first'))
  expect(asked).toEqual([])
  write('C. Desk')
  const records = ['accepted', 'repeated'].map((outcome, i) => ({ test: `T-${i}`, id: `${i}`, outcome }))
  answers = [Response.json({ sha256: 'f'.repeat(64), records }, { status: 201 })]
  choose()
  await vi.waitFor(() => expect(shown()).toContain('receiver.csv: records of 1 test taken, 1 known already.'))
  expect(asked[0]).toMatch(/\/test-quay\/receiver-records\?name=receiver\.csv&author=C\.\+Desk$/)
})

test('faults are told by line and column', async () => {
  write('C. Desk')
  const issues = [{ code: 'number-expected', message: '"many" stands there.', line: 2, column: 'received' }]
  const body = {
    type: '/problems/x',
    title: 'Record not understood',
    status: 422,
    detail: 'Nothing was taken.',
    issues,
  }
  const headers = { 'content-type': 'application/problem+json' }
  answers = [new Response(JSON.stringify(body), { status: 422, headers })]
  choose()
  await vi.waitFor(() => expect(shown()).toContain('line 2, column received: "many" stands there.'))
  expect(document.querySelector('[role=alert]')?.textContent).toBe('Nothing was taken.')
})
