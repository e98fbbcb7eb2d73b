import { expect, test } from 'vitest'
import { contactWays, isReachable } from '#domain/roster/contact-ways.ts'
import { waysToNowhere } from '#domain/roster/ways-to-nowhere.ts'
import { contact } from './small-roster.ts'

const everyWay = contact('a', { account: 'a.reed', webhooks: 'site-room; ; gate' })

test('ways are mail, account and every webhook; an account alone does not make a person reachable', () => {
  expect(contactWays(everyWay).map(({ kind, to }) => `${kind} ${to}`)).toEqual([
    'email a@example.invalid',
    'account a.reed',
    'webhook site-room',
    'webhook gate',
  ])
  expect(isReachable(contact('b', { email: null, account: 'b' }))).toBe(false)
  expect(isReachable(contact('b', { email: null, webhooks: 'gate' }))).toBe(true)
})

test('a webhook that is not set up and an account that there is not are named', () => {
  expect(waysToNowhere([everyWay], new Set(['gate', 'site-room']), new Set(['a.reed']))).toEqual([])
  const found = waysToNowhere([everyWay, contact('b')], new Set(['gate']), new Set())
  expect(found).toHaveLength(2)
  expect(found.join()).toMatch(/"a\.reed".*"site-room"/)
})
