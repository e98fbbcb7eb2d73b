import { expect, test } from 'vitest'
import { escalationSteps } from '#domain/escalation/escalation-steps.ts'
import { coverageHoles } from '#domain/roster/coverage.ts'
import { holeSentence } from '#domain/roster/hole-sentence.ts'
import { dutiesOf, onDuty } from '#domain/roster/on-duty.ts'
import { readSampleSite } from './read-sample-site.ts'

const site = readSampleSite()
const baseline = Date.parse('2027-02-01T00:00:00Z')

test('everyone who owns a level is on at every instant from the baseline to a year after', () => {
  const duties = dutiesOf(site)
  expect(duties).toEqual(['Monitoring engineer', 'Section engineer', 'Tunnel shift engineer'])
  const holes = duties.flatMap((duty) => coverageHoles(site, duty, baseline, baseline + 365 * 86_400_000))
  expect(holes.map((hole) => holeSentence(hole, site.facts.timeZone))).toEqual([])
})

test.each([
  ['2027-10-31T22:00:00Z', 'TH DV'],
  ['2027-08-27T12:00:00Z', 'IM DV'],
  ['2027-08-30T12:00:00Z', 'RO DV'],
  ['2027-08-29T12:00:00Z', 'RO DV'],
  ['2027-08-30T06:30:00Z', 'RO DV'],
  ['2027-08-30T05:30:00Z', 'TH DV'],
])('at %s %s are on for the monitoring', (at, contacts) => {
  expect(
    onDuty(site, 'Monitoring engineer', Date.parse(at))
      .map(({ contact }) => contact.id)
      .join(' '),
  ).toBe(contacts)
})

test('the steps of every duty are written, and every mail goes nowhere', () => {
  for (const duty of dutiesOf(site))
    expect(escalationSteps(duty, site.escalations, site.dutyShifts)).toHaveLength(3)
  for (const { email } of site.contacts) expect(email).toMatch(/@example\.invalid$/)
})
