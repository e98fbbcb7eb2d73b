import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { Role } from '#domain/access/permissions.ts'
import { ImportsPanel } from '../../../web/panels/ImportsPanel.tsx'
import { knowOwnAccount, me } from '../../../web/state/own-account.ts'
import { showSite } from '../../../web/state/site-document.ts'
import { smallSite } from '../state/small-site.ts'

const asked: string[] = []
let answers: Record<string, unknown> = {}
const stops: (() => void)[] = []

beforeEach(() => {
  asked.length = 0
  answers = {}
  vi.stubGlobal('fetch', async (path: string) => {
    asked.push(path)
    if (answers[path] === undefined) throw new Error('no network')
    return Response.json(answers[path])
  })
  showSite(smallSite())
})
afterEach(() => {
  for (const stop of stops.splice(0)) stop()
  vi.unstubAllGlobals()
})

const base = `/api/sites/${smallSite().facts.id}`
const shown = () => document.body.textContent ?? ''
async function openAs(role: Role) {
  const person = { name: 'Ada Marsh', signInName: 'ada', memberships: [{ site: smallSite().facts.id, role }] }
  answers['/api/me'] = { accounts: 'needed', person, link: null, hindrance: null } satisfies Me
  stops.push(
    render(() => {
      knowOwnAccount()
      return null
    }, document.body),
  )
  await vi.waitFor(() => expect(me()?.person?.memberships[0]?.role).toBe(role))
  asked.length = 0
  stops.push(render(() => <ImportsPanel />, document.body))
}

test('what a role may not read is not asked for, and not told to be none', async () => {
  await openAs('viewer')
  expect(shown()).toContain('Files taken in are not listed.')
  expect(shown()).not.toContain('Declared layouts')
  expect(shown()).not.toContain('None yet')
  expect(asked).toEqual([])
})

test('a list that did not come is not told to be empty; one that is empty is', async () => {
  await openAs('engineer')
  await vi.waitFor(() => expect(document.querySelector('.trouble')).not.toBeNull())
  expect(shown()).not.toContain('Declared layouts')
  expect(shown()).not.toContain('None yet')
  for (const stop of stops.splice(0)) stop()
  answers[`${base}/batches`] = { batches: [] }
  answers[`${base}/conflicts`] = { conflicts: [] }
  answers[`${base}/layouts`] = { layouts: [] }
  await openAs('engineer')
  await vi.waitFor(() => expect(shown()).toContain('None yet'))
})

test('of many files the newest are listed, the others are found by name or by what was left of them', async () => {
  const receipt = (batch: number, more: Partial<Receipt> = {}): Receipt => ({
    batch,
    site: smallSite().facts.id,
    fileName: `round-${batch}.csv`,
    sha256: 'a'.repeat(64),
    bytes: 10,
    receivedAtEpochMs: batch * 1000,
    from: 'page',
    layout: null,
    layoutVersion: null,
    outcome: 'taken',
    message: null,
    accepted: 1,
    repeated: 0,
    conflicting: 0,
    quarantined: 0,
    absent: 0,
    firstEpochMs: null,
    lastEpochMs: null,
    ...more,
  })
  const batches = Array.from({ length: 100 }, (_, at) => receipt(at + 1))
  batches[6] = receipt(7, { outcome: 'taken-in-part', quarantined: 3 })
  batches[7] = receipt(8, { conflicting: 1 })
  batches[8] = receipt(9, { outcome: 'refused' })
  answers[`${base}/batches`] = { batches }
  answers[`${base}/conflicts`] = { conflicts: [] }
  answers[`${base}/layouts`] = { layouts: [] }
  await openAs('engineer')
  await vi.waitFor(() => expect(shown()).toContain('100 files.'))
  const names = () => [...document.querySelectorAll('.receipt strong')].map((one) => one.textContent)
  expect(names()).toHaveLength(40)
  expect(names()[0]).toBe('round-100.csv')
  const button = [...document.querySelectorAll('button')].find((one) => one.textContent?.includes('more of'))
  expect(button?.textContent).toBe('Show 40 more of 100')
  button?.click()
  expect(names()).toHaveLength(80)
  const only = document.querySelector<HTMLInputElement>('.receipt-filters input[type=checkbox]')
  only?.click()
  expect(names()).toEqual(['round-9.csv', 'round-8.csv', 'round-7.csv'])
  expect(shown()).toContain('3 of 100 files.')
  only?.click()
  const find = document.querySelector<HTMLInputElement>('.receipt-filters input[type=search]')
  if (!find) throw new Error('no field')
  find.value = 'ROUND-41.'
  find.dispatchEvent(new Event('input', { bubbles: true }))
  expect(names()).toEqual(['round-41.csv'])
})
