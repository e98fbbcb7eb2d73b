import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { longestSessionMs, longestSilenceMs } from '#domain/access/session-standing.ts'
import { type Access, createAccess } from '../../../api/access/create-access.ts'
import { sha256OfToken } from '../../../api/access/secret-token.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'

const dayMs = 86_400_000
const ada = { name: 'Ada Marsh', signInName: 'ada', password: 'four plain words here' }

let folder: string
let store: Store
let access: Access
let nowEpochMs = Date.UTC(2027, 9, 21)

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'access-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  access = createAccess({ store, now: () => nowEpochMs })
})
afterEach(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const invite = async () => (await access.invite({ site: '*', role: 'administrator' }, dayMs)).token
const signIn = (some: object = {}) =>
  access.signIn({
    signInName: 'ada',
    password: ada.password,
    device: 'tablet',
    address: '192.0.2.1',
    ...some,
  })
const signedIn = async () => {
  const answer = await signIn()
  if (!('token' in answer)) throw new Error('not signed in')
  return answer.token
}

describe('an invitation', () => {
  it('makes an account and is spent; the same link again makes none', async () => {
    expect(await access.hasAccounts()).toBe(false)
    const token = await invite()
    expect(await access.lookAtInvitation(token)).toEqual({ site: '*', role: 'administrator' })
    expect((await access.redeem(token, ada)).ok).toBe(true)
    expect(await access.hasAccounts()).toBe(true)
    expect(await access.lookAtInvitation(token)).toBeNull()
    const again = await access.redeem(token, { ...ada, name: 'Eve', signInName: 'eve' })
    expect(again.ok ? [] : again.issues.map(({ code }) => code)).toEqual(['invitation-spent'])
  })

  it('ends by itself, is not its own hash, and is not spent by a password that is refused', async () => {
    const token = await invite()
    const short = await access.redeem(token, { ...ada, password: 'too short' })
    expect(short.ok ? [] : short.issues.map(({ code }) => code)).toEqual(['password-short'])
    expect(await access.lookAtInvitation(sha256OfToken(token))).toBeNull()
    nowEpochMs += dayMs
    expect((await access.redeem(token, ada)).ok).toBe(false)
  })
})

describe('signing in', () => {
  beforeEach(async () => {
    await access.redeem(await invite(), ada)
  })

  it('takes the name in any case and gives a token of which the store has the hash only', async () => {
    const answer = await signIn({ signInName: ' ADA ' })
    if (!('token' in answer)) throw new Error('not signed in')
    expect(answer.token).toMatch(/^[\w-]{43}$/)
    const caller = await access.findCaller(answer.token)
    expect(caller?.account.name).toBe('Ada Marsh')
    expect(caller?.session.sha256).toBe(sha256OfToken(answer.token))
    expect(await access.findCaller(caller?.session.sha256 ?? '')).toBeNull()
    const kept = await store.findSignIn('ada')
    expect(kept?.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
  })

  it('says the same of an unknown name as of a wrong password', async () => {
    expect(await signIn({ password: 'another four words' })).toEqual({ wrong: true })
    expect(await signIn({ signInName: 'nobody' })).toEqual({ wrong: true })
  })

  it('judges few of a hundred wrong passwords, and then not even the right one', async () => {
    const answers = await Promise.all(
      Array.from({ length: 100 }, (_, i) => signIn({ password: `wrong password ${i}` })),
    )
    expect(answers.filter((one) => 'wrong' in one)).toHaveLength(5)
    expect(answers.filter((one) => 'waitMs' in one)).toHaveLength(95)
    expect(await signIn()).toHaveProperty('waitMs')
    nowEpochMs += 3000
    expect(await signIn()).toHaveProperty('token')
  })

  it('gives every sign-in a token of its own', async () => {
    const first = await signedIn()
    expect(await signedIn()).not.toBe(first)
    expect(await access.findCaller(first)).not.toBeNull()
  })
})

describe('a session', () => {
  let token: string
  beforeEach(async () => {
    await access.redeem(await invite(), ada)
    token = await signedIn()
  })

  it('ends by signing out', async () => {
    const caller = await access.findCaller(token)
    if (!caller) throw new Error('no session')
    await access.signOut(caller)
    expect(await access.findCaller(token)).toBeNull()
  })

  it('ends when its device is not heard of, and after its longest time though it is', async () => {
    nowEpochMs += longestSilenceMs - 1
    expect(await access.findCaller(token)).not.toBeNull()
    nowEpochMs += longestSilenceMs - 1
    expect(await access.findCaller(token)).not.toBeNull()
    nowEpochMs += longestSessionMs - 2 * longestSilenceMs + 2
    expect(await access.findCaller(token)).toBeNull()
    const other = await signedIn()
    nowEpochMs += longestSilenceMs
    expect(await access.findCaller(other)).toBeNull()
  })

  it('ends with its account, which cannot sign in any more', async () => {
    const id = (await access.findCaller(token))?.account.id ?? ''
    await store.disableAccount(id, nowEpochMs, { author: 'tester', reason: 'left', atEpochMs: nowEpochMs })
    expect(await access.findCaller(token)).toBeNull()
    expect(await signIn()).toEqual({ wrong: true })
  })
})
