import { expect, test } from 'vitest'
import type { StoreUnderTest } from './store.ts'

const at = Date.UTC(2027, 9, 21)
const sum = (letter: string) => letter.repeat(64)
const signature = { author: 'A. Chief', account: 'chief', reason: 'joins the works', atEpochMs: at }
const ada = { id: 'one', name: 'Ada Marsh', signInName: 'ada', passwordHash: '$argon2id$ada' }
const ben = { id: 'two', name: 'Ben Holm', signInName: 'ben', passwordHash: '$argon2id$ben' }

export function accountContract(subject: StoreUnderTest): void {
  const invite = (letter: string, site = '*', role: 'administrator' | 'field' = 'administrator') =>
    subject.store.addInvitation({ sha256: sum(letter), site, role, expiresAtEpochMs: at + 1000 }, signature)
  const redeem = (letter: string, account: typeof ada, atEpochMs = at) =>
    subject.store.redeemInvitation(sum(letter), account, atEpochMs)
  const begin = (id: string, letter: string, account = 'one', createdAtEpochMs = at) =>
    subject.store.addSession({
      id,
      sha256: sum(letter),
      account,
      device: 'a tablet',
      createdAtEpochMs,
      expiresAtEpochMs: at + 5000,
    })

  test('an invitation makes one account, once, with its role', async () => {
    expect(await subject.store.hasAccounts()).toBe(false)
    await invite('a')
    expect(await redeem('a', ada)).toBe('accepted')
    expect(await redeem('a', ben)).toBe('spent')
    await subject.reopen()
    expect(await subject.store.hasAccounts()).toBe(true)
    expect(await subject.store.listAccounts()).toEqual([
      {
        id: 'one',
        name: 'Ada Marsh',
        signInName: 'ada',
        createdAtEpochMs: at,
        disabledAtEpochMs: null,
        memberships: [{ site: '*', role: 'administrator' }],
      },
    ])
    expect((await subject.store.findSignIn('ada'))?.passwordHash).toBe('$argon2id$ada')
    expect(await subject.store.findSignIn('ben')).toBeNull()
    expect((await subject.store.findInvitation(sum('a')))?.usedAtEpochMs).toBe(at)
  })

  test('two people who follow one link at once make one account', async () => {
    await invite('a')
    const both = await Promise.all([redeem('a', ada), redeem('a', ben)])
    expect(both.toSorted()).toEqual(['accepted', 'spent'])
    expect(await subject.store.listAccounts()).toHaveLength(1)
  })

  test('an invitation that expired or was never made makes none, a taken name leaves it unspent', async () => {
    await invite('a')
    await invite('b', 'north-quay', 'field')
    expect(await redeem('a', ada, at + 1000)).toBe('spent')
    expect(await redeem('c', ada)).toBe('spent')
    expect(await redeem('a', ada)).toBe('accepted')
    expect(await redeem('b', { ...ben, signInName: 'ada' })).toBe('name-taken')
    expect(await redeem('b', { ...ben, name: 'ADA Marsh' })).toBe('name-taken')
    expect(await redeem('b', ben)).toBe('accepted')
    expect((await subject.store.findSignIn('ben'))?.account.memberships).toEqual([
      { site: 'north-quay', role: 'field' },
    ])
  })

  test('roles are given, changed and taken away, a site at a time', async () => {
    await invite('a')
    await redeem('a', ada)
    await subject.store.setMembership('one', 'north-quay', 'field', signature)
    await subject.store.setMembership('one', 'north-quay', 'engineer', signature)
    await subject.store.setMembership('one', '*', null, signature)
    expect((await subject.store.listAccounts())[0]?.memberships).toEqual([
      { site: 'north-quay', role: 'engineer' },
    ])
    await subject.store.setMembership('one', 'north-quay', null, signature)
    expect((await subject.store.listAccounts())[0]?.memberships).toEqual([])
  })

  test('a session is found by the hash of its token, was last seen, and is ended once', async () => {
    await invite('a')
    await redeem('a', ada)
    await begin('s1', 'd')
    await begin('s2', 'e', 'one', at + 1)
    await subject.store.sawSession('s1', at + 60)
    await subject.reopen()
    const found = await subject.store.findSession(sum('d'))
    expect(found?.account.signInName).toBe('ada')
    expect(found?.account.createdAtEpochMs).toBe(at)
    expect(found?.session).toEqual({
      id: 's1',
      sha256: sum('d'),
      account: 'one',
      device: 'a tablet',
      createdAtEpochMs: at,
      lastSeenAtEpochMs: at + 60,
      expiresAtEpochMs: at + 5000,
      endedAtEpochMs: null,
    })
    expect((await subject.store.listSessions('one')).map(({ id }) => id)).toEqual(['s2', 's1'])
    await subject.store.endSession('s1', at + 70)
    await subject.store.endSession('s1', at + 80)
    expect((await subject.store.findSession(sum('d')))?.session.endedAtEpochMs).toBe(at + 70)
    expect((await subject.store.listSessions('one')).map(({ id }) => id)).toEqual(['s2'])
    expect(await subject.store.findSession(sum('f'))).toBeNull()
  })

  test('an account that is disabled has no session left, also when it may sign in again', async () => {
    await invite('a')
    await redeem('a', ada)
    await begin('s1', 'd')
    await subject.store.disableAccount('one', at + 5, signature)
    expect((await subject.store.findSession(sum('d')))?.session.endedAtEpochMs).toBe(at + 5)
    expect((await subject.store.findSignIn('ada'))?.account.disabledAtEpochMs).toBe(at + 5)
    await subject.store.disableAccount('one', null, signature)
    expect((await subject.store.findSignIn('ada'))?.account.disabledAtEpochMs).toBeNull()
    expect((await subject.store.findSession(sum('d')))?.session.endedAtEpochMs).toBe(at + 5)
  })
}
