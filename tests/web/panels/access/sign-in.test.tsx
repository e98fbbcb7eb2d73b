import { render } from 'solid-js/web'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Me } from '#contract/access.ts'
import type { Role } from '#domain/access/permissions.ts'
import { LinkBanner } from '../../../../web/panels/access/LinkBanner.tsx'
import { NewAccountForm } from '../../../../web/panels/access/NewAccountForm.tsx'
import { SignInForm } from '../../../../web/panels/access/SignInForm.tsx'
import { waitingSentence } from '../../../../web/panels/access/waiting-sentence.ts'
import { notices } from '../../../../web/state/notices.ts'
import {
  accessWanted,
  askForAccess,
  invitation,
  knowOwnAccount,
  putAccessAside,
} from '../../../../web/state/own-account.ts'
import { rememberedName, rememberName } from '../../../../web/state/own-name.ts'
import { hindranceTo } from '../../../../web/state/permitted.ts'
import { showSite } from '../../../../web/state/site-document.ts'
import { smallSite } from '../../state/small-site.ts'

let stop = () => {}
let answers: Record<string, () => Response> = {}
const sent: { path: string; body: unknown }[] = []

beforeEach(() => {
  localStorage.clear()
  answers = {}
  sent.length = 0
  vi.stubGlobal('fetch', async (path: string, { body }: RequestInit) => {
    sent.push({ path, body: typeof body === 'string' ? JSON.parse(body) : null })
    const answer = answers[path]
    if (!answer) throw new Error('no network')
    return answer()
  })
})
afterEach(() => {
  stop()
  stop = () => {}
  vi.unstubAllGlobals()
})

const refused = (status: number, detail: string, issues?: object[]) => () =>
  new Response(JSON.stringify({ type: '/problems/x', title: 'x', status, detail, issues }), {
    status,
    headers: { 'content-type': 'application/problem+json' },
  })
const me = (some: Partial<Me>) => () =>
  Response.json({ accounts: 'needed', person: null, link: null, hindrance: null, ...some } satisfies Me)
const write = (name: string, text: string) => {
  ;(document.querySelector(`[name=${name}]`) as HTMLInputElement).value = text
}
const send = () => (document.querySelector('form') as HTMLFormElement).requestSubmit()
const shown = () => document.body.textContent ?? ''

describe('signing in', () => {
  it('tells why it did not come about, and password managers know the fields', async () => {
    stop = render(() => <SignInForm />, document.body)
    const hints = [...document.querySelectorAll('input')].map((one) => one.autocomplete)
    expect(hints).toEqual(['username', 'current-password'])
    answers['/api/sessions'] = refused(429, 'There were too many attempts. Try again in 8 seconds.')
    write('username', 'ada')
    write('password', 'four plain words here')
    send()
    await vi.waitFor(() => expect(shown()).toContain('Try again in 8 seconds.'))
    expect(sent).toEqual([
      { path: '/api/sessions', body: { signInName: 'ada', password: 'four plain words here' } },
    ])
  })
})

describe('who one is', () => {
  const known = async (answer: () => Response) => {
    answers['/api/me'] = answer
    stop()
    stop = render(() => {
      knowOwnAccount()
      return null
    }, document.body)
    await vi.waitFor(() => expect(sent.length).toBeGreaterThan(0))
    await new Promise((done) => setTimeout(done, 0))
  }

  it('is not asked where nobody has to sign in, nor without a network', async () => {
    await known(me({ accounts: 'not-needed' }))
    expect(accessWanted()).toBe(false)
  })

  it('is not asked of visitors, who read everything and are told why they change nothing', async () => {
    await known(me({ accounts: 'to-change' }))
    showSite(smallSite())
    expect(accessWanted()).toBe(false)
    expect(hindranceTo('change-records')).toContain('as a visitor')
    expect(hindranceTo('read-all')).toBeNull()
    await known(me({ accounts: 'not-needed' }))
    expect(hindranceTo('change-records')).toBeNull()
  })

  it('is not asked of readers by a link until they ask to sign in; their link is named', async () => {
    const link = { site: 'small-quay', makerName: 'Ada Marsh', expiresAtEpochMs: 0 }
    await known(me({ link }))
    stop()
    stop = render(() => <LinkBanner />, document.body)
    expect(shown()).toMatch(/^Read by link of Ada Marsh until 1 Jan 1970/)
    expect(accessWanted()).toBe(false)
    expect(hindranceTo('add')).toContain('You read by a link.')
    putAccessAside()
    expect(accessWanted()).toBe(false)
    askForAccess()
    expect(accessWanted()).toBe(true)
  })

  it('says what a role lets one do at the open site', async () => {
    showSite(smallSite())
    const site = smallSite().facts.id
    const as = (role: Role) =>
      known(me({ person: { name: 'Ada Marsh', signInName: 'ada', memberships: [{ site, role }] } }))
    await as('field')
    expect(hindranceTo('add')).toBeNull()
    expect(hindranceTo('change-records')).toContain('Your role at this site does not let you change records.')
    await as('engineer')
    expect(hindranceTo('change-records')).toBeNull()
  })

  it('signs records; a name typed for another one does not replace it', async () => {
    await known(me({ person: { name: 'Ada Marsh', signInName: 'ada', memberships: [] } }))
    expect(rememberedName()).toBe('Ada Marsh')
    rememberName('Somebody Else')
    expect(rememberedName()).toBe('Ada Marsh')
    expect(localStorage.getItem('own-name')).toBe('Ada Marsh')
    expect(accessWanted()).toBe(false)
  })

  it('is asked when the server refuses for want of a session, and once put aside not again', async () => {
    await known(me({ person: { name: 'Ada Marsh', signInName: 'ada', memberships: [] } }))
    answers['/api/me'] = me({})
    dispatchEvent(new Event('sign-in-needed'))
    await vi.waitFor(() => expect(accessWanted()).toBe(true))
    putAccessAside()
    dispatchEvent(new Event('sign-in-needed'))
    expect(accessWanted()).toBe(false)
    expect(sent.filter(({ path }) => path === '/api/me')).toHaveLength(2)
  })
})

describe('a share link', () => {
  it('leaves the address at once and is opened; one that has ended is told', async () => {
    const token = 'l'.repeat(43)
    history.replaceState(null, '', `/?site=small-quay#link=${token}`)
    answers['/api/me'] = me({})
    answers['/api/share-links/open'] = refused(404, 'This link has expired or was revoked.')
    stop = render(() => {
      knowOwnAccount()
      return null
    }, document.body)
    expect(location.href).not.toContain(token)
    await vi.waitFor(() =>
      expect(notices().map(({ sentence }) => sentence)).toContain('This link has expired or was revoked.'),
    )
    expect(sent.find(({ path }) => path === '/api/share-links/open')?.body).toEqual({ token })
  })
})

describe('an invitation', () => {
  it('leaves the address at once; what is wrong with a password is told in words', async () => {
    const token = 'i'.repeat(43)
    history.replaceState(null, '', `/?site=small-quay#invitation=${token}`)
    answers['/api/me'] = me({})
    answers['/api/invitations/look'] = () => Response.json({ site: '*', role: 'field' })
    answers['/api/accounts'] = refused(400, 'Nothing was changed.', [
      { code: 'password-short', message: 'The password has 5 characters; at least 12 are needed.' },
    ])
    stop = render(() => {
      knowOwnAccount()
      return <NewAccountForm />
    }, document.body)
    expect(location.href).not.toContain(token)
    expect(location.search).toBe('?site=small-quay')
    expect(invitation()).toBe(token)
    await vi.waitFor(() => expect(shown()).toContain('You were invited to every site as field.'))
    write('name', 'Ben Holm')
    write('username', 'ben')
    write('password', 'short')
    write('again', 'other')
    send()
    await vi.waitFor(() => expect(shown()).toContain('The two passwords differ.'))
    expect(sent.map(({ path }) => path)).not.toContain('/api/accounts')
    write('again', 'short')
    send()
    await vi.waitFor(() => expect(shown()).toContain('at least 12 are needed.'))
  })
})

it('says before signing out what field work stays on the device', () => {
  expect(waitingSentence(1)).toMatch(/^One entry of field work has not reached the server\. It stays/)
  expect(waitingSentence(12)).toMatch(/^12 entries of field work have not reached the server\. They stay/)
})
