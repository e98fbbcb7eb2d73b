import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  decideEscalation,
  type EscalationQuestion,
  type TellingAttempt,
} from '#domain/escalation/decide-escalation.ts'
import { escalationSentences, escalationSteps } from '#domain/escalation/escalation-steps.ts'
import type { Roster } from '#domain/roster/on-duty.ts'
import type { EscalationRow } from '#domain/site/tables.ts'
import { contact, shift } from '../roster/small-roster.ts'

const duty = 'Monitoring engineer'
const minute = 60_000
/** A Wednesday afternoon in London. */
const raised = Date.parse('2027-08-11T13:00:00Z')
const whole = { fromTime: '00:00', untilTime: '00:00' }
const roster: Roster = {
  contacts: [contact('one'), contact('two', { webhooks: 'site-room' }), contact('chief')],
  dutyShifts: [
    shift('one', whole),
    shift('two', { ...whole, order: 2 }),
    shift('chief', { ...whole, duty: 'Section engineer' }),
  ],
  holidays: [],
}
const row = (step: number, change: Partial<EscalationRow> = {}): EscalationRow => ({
  duty,
  step,
  toDuty: null,
  toOrder: step,
  undeliveredMinutes: 2,
  unacknowledgedMinutes: 15,
  ...change,
})
const steps = escalationSteps(
  duty,
  [row(3, { toDuty: 'Section engineer', toOrder: null, unacknowledgedMinutes: 30 }), row(1), row(2)],
  roster.dutyShifts,
)

const asked = (minutes: number, change: Partial<EscalationQuestion> = {}, on = roster, by = steps) =>
  decideEscalation(
    {
      duty,
      fromEpochMs: raised,
      attempts: [],
      acknowledgedAtEpochMs: null,
      nowEpochMs: raised + minutes * minute,
      ...change,
    },
    by,
    on,
  )
const attempt = (
  who: string,
  minutes: number,
  outcome: TellingAttempt['outcome'] = 'delivered',
): TellingAttempt => ({
  contact: who,
  way: `email:${who}@example.invalid`,
  atEpochMs: raised + minutes * minute,
  outcome,
})
const told = (decision: ReturnType<typeof asked>) =>
  decision.tell.map((one) => `${one.contact} ${one.way.kind}`)
const minutesOf = (at: number | undefined) => ((at ?? Number.NaN) - raised) / minute

describe('who is told of an alert', () => {
  it('at first the person on, in every way', () => {
    const decision = asked(0)
    expect(told(decision)).toEqual(['one email'])
    expect(decision.next).toEqual({ atEpochMs: raised + 2 * minute, because: 'not-delivered' })
  })

  it('the next when nothing was delivered, the next after that when nobody acknowledges', () => {
    const failed = asked(2, { attempts: [attempt('one', 0, 'failed')] })
    expect(told(failed)).toEqual(['two email', 'two webhook'])
    expect(failed.begun.map(({ because }) => because)).toEqual(['raised', 'not-delivered'])
    const silent = { attempts: [attempt('one', 0)] }
    expect(told(asked(14, silent))).toEqual([])
    expect(minutesOf(asked(14, silent).next?.atEpochMs)).toBe(15)
    expect(told(asked(15, silent))).toEqual(['two email', 'two webhook'])
    expect(asked(15, silent).begun[1]?.because).toBe('not-acknowledged')
  })

  it('is the last step again and again, until it is acknowledged', () => {
    const attempts = [attempt('one', 0), attempt('two', 15), attempt('chief', 30)]
    expect(told(asked(59, { attempts }))).toEqual(['two webhook'])
    expect(told(asked(60, { attempts }))).toContain('chief email')
    expect(asked(60, { attempts }).begun.at(-1)).toMatchObject({ step: 3, round: 2, people: ['chief'] })
    const weeks = asked(60 * 24 * 21, { attempts })
    expect(told(weeks)).toContain('chief email')
    expect(minutesOf(weeks.next?.atEpochMs) - 60 * 24 * 21).toBeLessThanOrEqual(30)
    const over = asked(60, { attempts, acknowledgedAtEpochMs: raised + 40 * minute })
    expect(over).toMatchObject({ tell: [], next: null })
    expect(over.begun.map(({ step, round }) => [step, round])).toEqual([
      [1, 1],
      [2, 1],
      [3, 1],
    ])
  })

  it('whoever was passed over while nothing ran, each once', () => {
    expect(told(asked(200)).sort()).toEqual(['chief email', 'one email', 'two email', 'two webhook'])
  })

  it('whoever comes on while nobody has acknowledged', () => {
    const handover: Roster = {
      ...roster,
      dutyShifts: [
        shift('one', { fromTime: '00:00', untilTime: '14:10' }),
        shift('two', { fromTime: '14:10', untilTime: '00:00' }),
      ],
    }
    const by = escalationSteps(duty, [row(1, { toOrder: 1 })], handover.dutyShifts)
    const attempts = [attempt('one', 0)]
    expect(asked(0, { attempts }, handover, by).next).toEqual({
      atEpochMs: raised + 10 * minute,
      because: 'handover',
    })
    expect(told(asked(10, { attempts }, handover, by))).toEqual(['two email', 'two webhook'])
  })

  it('at a hole in the roster the next step at once, and it is told', () => {
    const hole: Roster = {
      ...roster,
      dutyShifts: roster.dutyShifts
        .filter(({ order }) => order === 2)
        .concat(shift('chief', { ...whole, duty: 'Section engineer' })),
    }
    const decision = asked(0, {}, hole)
    expect(told(decision)).toEqual(['two email', 'two webhook'])
    expect(decision.findings).toMatchObject([{ code: 'nobody-on-duty', step: 1 }])
    expect(decision.findings[0]?.message).toContain('Close the hole')
  })

  it('those of the last order, on or not, where nobody at all is on', () => {
    const asleep: Roster = {
      ...roster,
      dutyShifts: [shift('one', { weekdays: 'sat' }), shift('two', { weekdays: 'sun', order: 2 })],
    }
    const decision = asked(0, {}, asleep)
    expect(told(decision)).toEqual(['two email', 'two webhook'])
    expect(decision.begun.map(({ because }) => because)).toEqual(['raised', 'nobody-on', 'nobody-on'])
    expect(decision.next).not.toBeNull()
  })

  it('nobody, where there is nobody: that is a finding, and it asks again', () => {
    const decision = asked(0, {}, { contacts: [], dutyShifts: [], holidays: [] })
    expect(decision.tell).toEqual([])
    expect(decision.findings.map(({ code }) => code)).toEqual([
      'nobody-on-duty',
      'nobody-on-duty',
      'duty-unreachable',
    ])
    expect(minutesOf(decision.next?.atEpochMs)).toBe(2)
  })

  it('nobody yet, before what holds it back has ended', () => {
    expect(asked(-5)).toMatchObject({ tell: [], begun: [], next: { atEpochMs: raised, because: 'raised' } })
  })
})

describe('whatever happens', () => {
  const people = ['one', 'two', 'chief', 'stranger']
  const attempts = fc.array(
    fc.record({
      who: fc.constantFrom(...people),
      minutes: fc.integer({ min: -10, max: 120 }),
      outcome: fc.constantFrom('delivered' as const, 'failed' as const, 'pending' as const),
    }),
    { maxLength: 12 },
  )
  const made = (list: { who: string; minutes: number; outcome: TellingAttempt['outcome'] }[]) =>
    list.map(({ who, minutes, outcome }) => attempt(who, minutes, outcome))
  const now = fc.integer({ min: 0, max: 150 })
  // Shifts with hand-overs and holes among them, and steps of many lengths.
  const rosters = fc
    .array(
      fc.record({
        who: fc.constantFrom('one', 'two', 'chief'),
        order: fc.integer({ min: 1, max: 3 }),
        from: fc.constantFrom('00:00', '13:30', '14:05', '14:40', '15:20'),
        until: fc.constantFrom('00:00', '14:03', '14:40', '15:00', '15:21'),
      }),
      { maxLength: 5 },
    )
    .map(
      (list): Roster => ({
        ...roster,
        dutyShifts: list.map(({ who, order, from, until }, place) =>
          shift(String(place), { contact: who, order, fromTime: from, untilTime: until }),
        ),
      }),
    )
  const plans = fc
    .array(fc.tuple(fc.integer({ min: 1, max: 10 }), fc.integer({ min: 0, max: 25 })), {
      minLength: 1,
      maxLength: 4,
    })
    .map((list) =>
      list.map(([undeliveredMinutes, more], place) => ({
        duty,
        order: place === list.length - 1 ? null : place + 1,
        undeliveredMinutes,
        unacknowledgedMinutes: undeliveredMinutes + more,
      })),
    )

  it('the order in which attempts are told makes no difference', () => {
    const shuffled = attempts.chain((list) =>
      fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
    )
    fc.assert(
      fc.property(shuffled, now, rosters, plans, ([list, other], minutes, on, by) => {
        expect(asked(minutes, { attempts: made(other) }, on, by)).toEqual(
          asked(minutes, { attempts: made(list) }, on, by),
        )
      }),
      { seed: 6, numRuns: 300 },
    )
  })

  it('a failure, or a delivery that failed after all, never makes a step later', () => {
    fc.assert(
      fc.property(attempts, fc.array(fc.nat(11)), now, rosters, plans, (list, which, minutes, on, by) => {
        const worse = list.map((one, place) =>
          which.includes(place) ? { ...one, outcome: 'failed' as const } : one,
        )
        const before = asked(minutes, { attempts: made(list) }, on, by)
        const after = asked(minutes, { attempts: made(worse) }, on, by)
        for (const { step, atEpochMs, round } of before.begun) {
          const same = after.begun.find((one) => one.step === step)
          expect(same, `step ${step} is taken`).toBeDefined()
          if (step < by.length) expect(same?.atEpochMs).toBeLessThanOrEqual(atEpochMs)
          else expect(same?.round).toBeGreaterThanOrEqual(round)
        }
        const more = asked(
          minutes,
          { attempts: made([...list, ...worse.map((one) => ({ ...one, outcome: 'failed' as const }))]) },
          on,
          by,
        )
        expect(more.begun).toEqual(before.begun)
      }),
      { seed: 6, numRuns: 500 },
    )
  })

  it('it never falls silent before somebody acknowledges', () => {
    fc.assert(
      fc.property(attempts, now, rosters, plans, (list, minutes, on, by) => {
        const decision = asked(minutes, { attempts: made(list) }, on, by)
        expect(decision.next?.atEpochMs).toBeGreaterThan(raised + minutes * minute)
        expect(minutesOf(decision.next?.atEpochMs) - minutes).toBeLessThanOrEqual(35)
        expect(decision.begun.length).toBeGreaterThan(0)
      }),
      { seed: 6, numRuns: 300 },
    )
  })

  it('an acknowledgement ends the telling, and nothing of the listing before it', () => {
    fc.assert(
      fc.property(attempts, now, now, rosters, plans, (list, minutes, later, on, by) => {
        const at = raised + minutes * minute
        const known = made(list).filter(({ atEpochMs }) => atEpochMs <= at)
        const before = asked(minutes, { attempts: known }, on, by)
        const after = asked(minutes + later, { attempts: known, acknowledgedAtEpochMs: at }, on, by)
        expect(after.tell).toEqual([])
        expect(after.next).toBeNull()
        expect(after.begun).toEqual(before.begun)
      }),
      { seed: 6, numRuns: 300 },
    )
  })
})

it('where no steps are written, every order is asked and then everyone', () => {
  const unwritten = escalationSteps(duty, [], roster.dutyShifts)
  expect(unwritten.map(({ order }) => order)).toEqual([1, 2, null])
  expect(escalationSteps('Nobody’s', [], []).map(({ order }) => order)).toEqual([null])
  expect(escalationSentences(steps)).toEqual([
    'Whoever is on for Monitoring engineer in order 1 is told. The next step follows 2 minutes later when nothing is delivered, 15 minutes later when nobody acknowledges, at once when nobody is on.',
    'Whoever is on for Monitoring engineer in order 2 is told. The next step follows 2 minutes later when nothing is delivered, 15 minutes later when nobody acknowledges, at once when nobody is on.',
    'Everyone on for Section engineer is told, and again every 30 minutes until somebody acknowledges; every 2 minutes while nothing is delivered. Where nobody is on, those of the last order are told all the same.',
  ])
})
