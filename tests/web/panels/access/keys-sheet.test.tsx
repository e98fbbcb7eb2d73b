import decodeQR from 'qr/decode.js'
import { render } from 'solid-js/web'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { OwnKeys } from '#contract/access-keys.ts'
import { KeysSheet } from '../../../../web/panels/access/KeysSheet.tsx'
import { NewPasswordForm } from '../../../../web/panels/access/NewPasswordForm.tsx'
import { SignInForm } from '../../../../web/panels/access/SignInForm.tsx'
import { sharedAddress, sharedWall } from '../../../../web/panels/access/shared-address.ts'

let stop = () => {}
let answers: Record<string, () => Response> = {}
const sent: { route: string; body: unknown }[] = []

beforeEach(() => {
  answers = {}
  sent.length = 0
  vi.stubGlobal('fetch', async (path: string, { method = 'GET', body }: RequestInit) => {
    const route = `${method} ${path}`
    sent.push({ route, body: typeof body === 'string' ? JSON.parse(body) : null })
    const answer = answers[route]
    if (!answer) throw new Error('no network')
    return answer()
  })
  // jsdom shows no dialogs.
  HTMLDialogElement.prototype.showModal = () => undefined
})
afterEach(() => {
  stop()
  stop = () => {}
  vi.unstubAllGlobals()
})

const refused = (status: number, type: string, detail: string) => () =>
  new Response(JSON.stringify({ type: `/problems/${type}`, title: type, status, detail }), {
    status,
    headers: { 'content-type': 'application/problem+json' },
  })
const done = () => new Response(null, { status: 204 })
const keys =
  (some: Partial<OwnKeys> = {}) =>
  () =>
    Response.json({
      secondFactor: null,
      secondFactorOffered: true,
      passkeys: [],
      otherSessions: [],
      passkeyHindrance: null,
      ...some,
    } satisfies OwnKeys)
const shown = () => document.body.textContent ?? ''
const formOf = (button: string) =>
  [...document.querySelectorAll('form')].find((form) => form.textContent?.includes(button)) as HTMLFormElement
const write = (form: HTMLFormElement, name: string, text: string) => {
  ;(form.elements.namedItem(name) as HTMLInputElement).value = text
}
const open = async (some: Partial<OwnKeys> = {}) => {
  answers['GET /api/me/keys'] = keys(some)
  stop = render(() => <KeysSheet closed={() => undefined} />, document.body)
  await vi.waitFor(() => expect(shown()).toContain('Change the password'))
}

describe('the own password', () => {
  it('is changed with the old one; what is wrong with the new one is told', async () => {
    await open()
    const form = formOf('Change the password')
    write(form, 'old', 'four plain words here')
    write(form, 'password', 'five other plain words here')
    write(form, 'again', 'another')
    form.requestSubmit()
    await vi.waitFor(() => expect(shown()).toContain('The two passwords differ.'))
    expect(sent.some(({ route }) => route.startsWith('PUT'))).toBe(false)
    answers['PUT /api/me/password'] = done
    write(form, 'again', 'five other plain words here')
    form.requestSubmit()
    await vi.waitFor(() => expect(shown()).toContain('Every other device has to sign in again.'))
    expect(sent.find(({ route }) => route === 'PUT /api/me/password')?.body).toEqual({
      oldPassword: 'four plain words here',
      password: 'five other plain words here',
    })
    expect((form.elements.namedItem('old') as HTMLInputElement).value).toBe('')
  })
})

describe('a second factor', () => {
  const uri = 'otpauth://totp/Stillground:ada?issuer=Stillground&secret=GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ'

  it('is set up by a picture that says the same as the typed key, and codes are shown once', async () => {
    await open()
    answers['POST /api/me/second-factor'] = () =>
      Response.json({ key: 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ', uri }, { status: 201 })
    const begin = formOf('Set up a second factor')
    write(begin, 'password', 'four plain words here')
    begin.requestSubmit()
    await vi.waitFor(() => expect(shown()).toContain('GEZD GNBV GY3T QOJQ'))
    const picture = document.querySelector('img')?.src ?? ''
    expect(readPicture(decodeURIComponent(picture.replace(/^[^,]*,/, '')))).toBe(uri)
    answers['PUT /api/me/second-factor'] = () => Response.json({ recoveryCodes: ['aaaa-bbbb', 'cccc-dddd'] })
    answers['GET /api/me/keys'] = keys({ secondFactor: { confirmedAtEpochMs: 0, recoveryCodesLeft: 2 } })
    const confirm = formOf('Ask for codes from now on')
    write(confirm, 'code', '287082')
    confirm.requestSubmit()
    await vi.waitFor(() => expect(shown()).toContain('cccc-dddd'))
    expect(shown()).not.toContain('GEZD GNBV')
    expect(shown()).toContain('2 recovery codes are left')
  })

  it('is asked for when signing in, and only then', async () => {
    stop = render(() => <SignInForm />, document.body)
    const form = document.querySelector('form') as HTMLFormElement
    expect(form.elements.namedItem('code')).toBeNull()
    answers['POST /api/sessions'] = refused(401, 'code-needed', 'This account asks for a code.')
    write(form, 'username', 'ada')
    write(form, 'password', 'four plain words here')
    form.requestSubmit()
    await vi.waitFor(() => expect(form.elements.namedItem('code')).not.toBeNull())
    expect((form.elements.namedItem('code') as HTMLInputElement).autocomplete).toBe('one-time-code')
    answers['POST /api/sessions'] = refused(401, 'code-wrong', 'The code is wrong.')
    write(form, 'code', '123456')
    form.requestSubmit()
    await vi.waitFor(() => expect(shown()).toContain('The code is wrong.'))
    expect(sent.at(-1)?.body).toEqual({
      signInName: 'ada',
      password: 'four plain words here',
      code: '123456',
    })
  })
})

describe('passkeys', () => {
  beforeEach(() => vi.stubGlobal('PublicKeyCredential', class {}))

  it('are listed, named and removed', async () => {
    await open({
      passkeys: [
        { id: 'k1', name: 'tablet', host: 'localhost', createdAtEpochMs: 0, lastUsedAtEpochMs: null },
      ],
    })
    expect(shown()).toMatch(/For localhost, made 1 Jan 1970.*not used yet/)
    answers['DELETE /api/me/passkeys/k1'] = done
    answers['GET /api/me/keys'] = keys()
    const remove = formOf('Remove tablet')
    write(remove, 'password', 'four plain words here')
    remove.requestSubmit()
    await vi.waitFor(() => expect(shown()).toContain('None yet.'))
  })

  it('are not offered where there can be none, and it says why', async () => {
    await open({ passkeyHindrance: 'Passkeys belong to a name, and 127.0.0.1 is an address.' })
    expect(shown()).toContain('127.0.0.1 is an address.')
    expect(shown()).not.toContain('Make a passkey')
  })

  it('are not offered by a browser that knows none', async () => {
    vi.stubGlobal('PublicKeyCredential', undefined)
    await open()
    expect(shown()).toContain('This browser knows no passkeys')
  })
})

it('other devices are told and signed out with the password', async () => {
  await open({ otherSessions: [{ device: 'A tablet', createdAtEpochMs: 0, lastSeenAtEpochMs: 0 }] })
  expect(shown()).toContain('A tablet')
  answers['DELETE /api/me/other-sessions'] = done
  answers['GET /api/me/keys'] = keys()
  const form = formOf('Sign out every other device')
  write(form, 'password', 'four plain words here')
  form.requestSubmit()
  await vi.waitFor(() => expect(shown()).toContain('on no other device'))
  expect(sent.find(({ route }) => route.startsWith('DELETE'))?.body).toEqual({
    password: 'four plain words here',
  })
})

it('a link for another password says whose it is, and a spent one so', async () => {
  answers['POST /api/password-links/look'] = () => Response.json({ name: 'Ada Marsh', signInName: 'ada' })
  stop = render(() => <NewPasswordForm />, document.body)
  await vi.waitFor(() => expect(shown()).toContain('For Ada Marsh.'))
  stop()
  answers['POST /api/password-links/look'] = refused(404, 'no-such-link', 'This link was used already.')
  stop = render(() => <NewPasswordForm />, document.body)
  await vi.waitFor(() => expect(shown()).toContain('This link was used already.'))
})

it('a shared address names site and instant, or the newest readings', () => {
  const page = new URL('https://works.example/?selected=point%3AP1&at=2027-01-01T00%3A00%3A00.000Z#x')
  expect(sharedAddress(page, 'small-quay', Date.UTC(2027, 9, 21))).toBe(
    'https://works.example/?selected=point%3AP1&at=2027-10-21T00%3A00%3A00.000Z&site=small-quay',
  )
  expect(sharedAddress(page, 'small-quay', null)).toBe(
    'https://works.example/?selected=point%3AP1&site=small-quay',
  )
})

/** What a scanner reads from the drawn picture, in which every dark module is a square of its own. */
function readPicture(svg: string): string {
  const size = Number(/viewBox="0 0 (\d+)/.exec(svg)?.[1])
  const scale = 8
  const width = size * scale
  const pixels = new Uint8Array(width * width * 4).fill(255)
  let column = 0
  let row = 0
  for (const [, command = '', x = '', y = ''] of svg.matchAll(/([Mm])(-?\d+) ?(-?\d+)h1v1/g)) {
    column = Number(x) + (command === 'm' ? column : 0)
    row = Number(y) + (command === 'm' ? row : 0)
    for (let line = row * scale; line < (row + 1) * scale; line++)
      for (let at = column * scale; at < (column + 1) * scale; at++)
        pixels.fill(0, (line * width + at) * 4, (line * width + at) * 4 + 3)
  }
  return decodeQR({ width, height: width, data: pixels })
}

it('a shared meeting opens on its first board, with nothing of the desk in its address', () => {
  const page = new URL('https://works.example/?site=small-quay&at=2027-10-21T00:00:00Z&sheet=meetings')
  expect(sharedWall(page, 'small-quay', 7)).toBe('https://works.example/?site=small-quay&meeting=7&board=1')
})
