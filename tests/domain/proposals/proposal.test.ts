import { expect, test } from 'vitest'
import { type Decision, hindranceToDecide, isAnotherPerson, type Person } from '#domain/proposals/proposal.ts'

const typed = { author: 'Ada  Marsh', account: null }
const signed = { ...typed, account: 'one' }
const decision: Decision = { kind: 'rejected', by: 'Ben Holm', account: null, reason: 'no', atEpochMs: 1 }

test('another person has another name, however written, and another account', () => {
  expect(isAnotherPerson(typed, { name: 'ada marsh ', account: null })).toBe(false)
  expect(isAnotherPerson(typed, { name: 'Ben Holm', account: null })).toBe(true)
  expect(isAnotherPerson(typed, { name: ' ', account: null })).toBe(false)
  expect(isAnotherPerson(signed, { name: 'Ben Holm', account: 'one' })).toBe(false)
  expect(isAnotherPerson(signed, { name: 'Ben Holm', account: 'two' })).toBe(true)
})

const [ada, ben]: readonly Person[] = [
  { name: 'Ada  MARSH', account: 'one' },
  { name: 'Ben Holm', account: 'two' },
]
const namesake: Person = { name: 'Ada Marsh', account: 'two' }

test.each([
  ['approved', ada, 'no-second-person'],
  ['rejected', ada, 'no-second-person'],
  ['withdrawn', ada, null],
  ['approved', ben, null],
  ['rejected', ben, null],
  ['withdrawn', ben, 'not-its-proposer'],
  // Of the same name: nobody could tell afterwards who of them it was.
  ['approved', namesake, 'no-second-person'],
  ['withdrawn', namesake, 'not-its-proposer'],
] as const)(
  'a proposal is %s by the right person while it waits, and never once it is decided',
  (kind, person, hindrance) => {
    const who = person as Person
    expect(hindranceToDecide({ ...signed, decision: null }, kind, who)).toBe(hindrance)
    expect(hindranceToDecide({ ...signed, decision }, kind, who)).toBe(hindrance ?? 'decided')
  },
)
