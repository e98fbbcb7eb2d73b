import { describe, expect, it } from 'vitest'
import type { Session } from '#domain/access/account.ts'
import { asOnePassword, judgeNames, judgePassword } from '#domain/access/person-rules.ts'
import { longestSessionMs, longestSilenceMs, sessionHolds } from '#domain/access/session-standing.ts'

const person = { name: 'Ada Marsh', signInName: 'ada.marsh' }
const codes = (password: string) => judgePassword(password, person).map(({ code }) => code)

// NIST SP 800-63B, from memory and not copied from the text: length, a list of common values and words of the context
// are checked; nothing is asked of the kinds of characters.
describe('a password', () => {
  it.each([
    ['elevenchars', ['password-short']],
    ['', ['password-short']],
    ['x'.repeat(201), ['password-long']],
    ['password1234', ['password-common']],
    ['Pass-Word 1234', ['password-common']],
    ['CHANGEMECHANGEME', ['password-common']],
    ['aaaaaaaaaaaaaa', ['password-common']],
    ['abababababab', ['password-common']],
    ['abcdefghijklmnop', ['password-common']],
    ['adamarsh2027', ['password-own-name']],
    ['Marsh-Marsh-Ada', ['password-own-name']],
    ['marsh and tidal flats', []],
    ['four plain words here', []],
    ['ßüßer Kröten Teich', []],
  ])('%j is judged %j', (password, expected) => {
    expect(codes(password)).toEqual(expected)
  })

  it('is counted in characters, and is the same however a keyboard composes them', () => {
    expect(codes('😀'.repeat(6))).toEqual(['password-short'])
    expect(asOnePassword('cafe\u0301')).toBe(asOnePassword('caf\u00e9'))
  })
})

describe('names', () => {
  it('are kept trimmed, the one to sign in with in lower case', () => {
    expect(judgeNames({ name: '  Ada   Marsh ', signInName: ' Ada.Marsh ' })).toEqual({
      ok: true,
      value: person,
    })
  })

  it.each([
    [{ name: 'A', signInName: 'ada' }, 'name-expected'],
    [{ name: 'Ada\u0007', signInName: 'ada' }, 'name-expected'],
    [{ name: 'Site Folder', signInName: 'ada' }, 'name-reserved'],
    [{ name: 'Ada', signInName: 'a b' }, 'sign-in-name-expected'],
    [{ name: 'Ada', signInName: '' }, 'sign-in-name-expected'],
  ])('%j is refused: %s', (names, code) => {
    const judged = judgeNames(names)
    expect(judged.ok ? [] : judged.issues.map((one) => one.code)).toEqual([code])
  })
})

describe('a session', () => {
  const session: Session = {
    id: 's',
    sha256: '',
    account: 'a',
    device: '',
    createdAtEpochMs: 0,
    lastSeenAtEpochMs: 1000,
    expiresAtEpochMs: longestSessionMs,
    endedAtEpochMs: null,
  }
  it('holds until it is ended, not heard of, or over', () => {
    expect(sessionHolds(session, 1000 + longestSilenceMs - 1)).toBe(true)
    expect(sessionHolds(session, 1000 + longestSilenceMs)).toBe(false)
    const busy = { ...session, lastSeenAtEpochMs: longestSessionMs - 1 }
    expect(sessionHolds(busy, longestSessionMs - 1)).toBe(true)
    expect(sessionHolds(busy, longestSessionMs)).toBe(false)
    expect(sessionHolds({ ...session, endedAtEpochMs: 1 }, 2)).toBe(false)
  })
})
