import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
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
