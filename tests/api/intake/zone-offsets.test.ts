import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { openZone, type WallInstant } from '../../../api/intake/zone-offsets.ts'

function resolve(zone: string, wall: string): WallInstant {
  const opened = openZone(zone)
  if (!opened.ok) throw new Error(opened.issues[0]?.message)
  const into: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  opened.value.resolve(Date.parse(`${wall}Z`) * 1000, into)
  return into
}

const micros = (text: string) => Date.parse(text) * 1000

describe('the Azores in 2027, after the IANA time zone database (rules EU, zone Atlantic/Azores)', () => {
  // Summer time ends on 31 October at 01:00 UTC: the clock goes from 00:59:59 (+00) back to 00:00 (-01).
  test('00:30 on 31 October comes twice', () => {
    expect(resolve('Atlantic/Azores', '2027-10-31T00:30:00')).toEqual({
      kind: 'repeated',
      micros: micros('2027-10-31T00:30:00Z'),
      secondMicros: micros('2027-10-31T01:30:00Z'),
    })
  })
  test('the hours around it come once', () => {
    expect(resolve('Atlantic/Azores', '2027-10-30T23:59:59').micros).toBe(micros('2027-10-30T23:59:59Z'))
    expect(resolve('Atlantic/Azores', '2027-10-31T00:00:00').kind).toBe('repeated')
    expect(resolve('Atlantic/Azores', '2027-10-31T01:00:00')).toMatchObject({
      kind: 'once',
      micros: micros('2027-10-31T02:00:00Z'),
    })
  })
  test('00:00 to 01:00 on 28 March never comes', () => {
    expect(resolve('Atlantic/Azores', '2027-03-27T23:59:59').kind).toBe('once')
    expect(resolve('Atlantic/Azores', '2027-03-28T00:30:00')).toMatchObject({
      kind: 'skipped',
      micros: Number.NaN,
    })
    expect(resolve('Atlantic/Azores', '2027-03-28T01:00:00').micros).toBe(micros('2027-03-28T01:00:00Z'))
  })
})

test('fixed offsets and UTC', () => {
  expect(resolve('UTC', '2027-10-31T00:30:00').micros).toBe(micros('2027-10-31T00:30:00Z'))
  expect(resolve('-01:00', '2027-10-31T00:30:00').micros).toBe(micros('2027-10-31T01:30:00Z'))
  expect(resolve('+05:45', '2027-10-31T00:30:00').micros).toBe(micros('2027-10-30T18:45:00Z'))
})

test('an unknown zone says what may be given', () => {
  const opened = openZone('Atlantic/Velmouth')
  expect(opened.ok ? '' : opened.issues[0]?.message).toMatch(/"Atlantic\/Velmouth" is not a time zone/)
})

test.each(['Atlantic/Azores', 'Australia/Lord_Howe', 'America/St_Johns', 'Asia/Kathmandu', 'Pacific/Apia'])(
  'every instant in %s is among those its own wall time resolves to',
  (zone) => {
    const opened = openZone(zone)
    if (!opened.ok) throw new Error(zone)
    const format = new Intl.DateTimeFormat('sv-SE', {
      timeZone: zone,
      dateStyle: 'short',
      timeStyle: 'medium',
    })
    const minutes = fc.integer({ min: Date.UTC(1995) / 60_000, max: Date.UTC(2030) / 60_000 })
    const into: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
    fc.assert(
      fc.property(minutes, (minute) => {
        const wall = Date.parse(`${format.format(minute * 60_000).replace(' ', 'T')}Z`) * 1000
        opened.value.resolve(wall, into)
        expect([into.micros, into.secondMicros]).toContain(minute * 60e6)
      }),
      { seed: 3, numRuns: 400 },
    )
  },
)
