import { expect, it } from 'vitest'
import { type AlertToTell, decideTelling } from '#domain/escalation/decide-telling.ts'
import { readSampleSite } from '../../sample-site/read-sample-site.ts'

const site = readSampleSite()
const at = (text: string) => Date.parse(text)
const alert = (change: Partial<AlertToTell> = {}): AlertToTell => ({
  subject: {
    level: 'SP-40 settlement 1',
    series: 'SP-40/settlement',
    instrument: 'SP-40',
    logger: null,
  },
  duty: 'Monitoring engineer',
  raisedAtEpochMs: at('2027-10-12T10:00:00Z'),
  acknowledgedAtEpochMs: null,
  attempts: [],
  ...change,
})
const told = (text: string, change?: Partial<AlertToTell>) => {
  const { tell, heldBy, next } = decideTelling(site, alert(change), at(text))
  return [tell.map(({ contact }) => contact).join(' '), heldBy.length, next?.atEpochMs]
}

it('an alert on the sample’s bent mark is told to nobody while it is held back, and in the end to whoever is on', () => {
  const end = at('2027-10-20T09:00:00Z')
  expect(told('2027-10-12T10:00:00Z')).toEqual(['', 1, end])
  expect(told('2027-10-20T08:59:59Z')).toEqual(['', 1, end])
  expect(told('2027-10-20T09:00:00Z')).toEqual(['IM', 0, end + 5 * 60_000])
})

it('one on the mark beside it goes to whoever is on, and further when nothing is delivered', () => {
  const beside = { subject: { ...alert().subject, series: 'SP-39/settlement', instrument: 'SP-39' } }
  expect(told('2027-10-12T10:00:00Z', beside)[0]).toBe('IM')
  expect(told('2027-10-12T10:05:00Z', beside)[0]).toBe('IM DV')
  // 23:00 in London: the night is somebody else's.
  const night = { ...beside, raisedAtEpochMs: at('2027-10-12T22:00:00Z') }
  expect(told('2027-10-12T22:00:00Z', night)[0]).toBe('TH')
  expect(
    told('2027-10-12T22:01:00Z', { ...night, acknowledgedAtEpochMs: at('2027-10-12T22:00:30Z') }),
  ).toEqual(['', 0, undefined])
})
