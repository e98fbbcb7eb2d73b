import { describe, expect, it } from 'vitest'
import { drillStanding } from '#domain/drill/drill-standing.ts'

const facts = {
  timeZone: 'Europe/London',
  drillDayOfMonth: 5,
  drillTime: '10:00',
  drillDuty: 'Monitoring engineer',
}
const at = (text: string) => Date.parse(text)
const standing = (now: string, ...held: string[]) => drillStanding(facts, held.map(at), at(now))

describe('the monthly drill', () => {
  it('is due at ten by the clocks of the site, in summer and in winter, over the end of a year', () => {
    expect(standing('2027-06-05T08:59:00Z')).toMatchObject({
      dueEpochMs: at('2027-05-05T09:00:00Z'),
      nextEpochMs: at('2027-06-05T09:00:00Z'),
    })
    expect(standing('2027-12-31T00:00:00Z')).toMatchObject({
      dueEpochMs: at('2027-12-05T10:00:00Z'),
      nextEpochMs: at('2028-01-05T10:00:00Z'),
    })
    expect(standing('2028-01-01T00:00:00Z')?.dueEpochMs).toBe(at('2027-12-05T10:00:00Z'))
  })

  it('is overdue from when it was due until it is held; a late one is no early one', () => {
    expect(standing('2027-06-05T09:00:00Z')?.heldEpochMs).toBeNull()
    expect(standing('2027-06-20T09:00:00Z', '2027-06-12T09:00:00Z')?.heldEpochMs).toBe(
      at('2027-06-12T09:00:00Z'),
    )
    expect(standing('2027-07-06T09:00:00Z', '2027-06-12T09:00:00Z')).toMatchObject({
      heldEpochMs: null,
      lastEpochMs: at('2027-06-12T09:00:00Z'),
    })
  })

  it('counts when held up to three days before', () => {
    expect(standing('2027-06-06T09:00:00Z', '2027-06-03T09:00:00Z')?.heldEpochMs).not.toBeNull()
    expect(standing('2027-06-06T09:00:00Z', '2027-06-01T09:00:00Z')?.heldEpochMs).toBeNull()
  })

  it('is not planned where the site says nothing of it', () => {
    expect(drillStanding({ timeZone: 'UTC' }, [], 0)).toBeNull()
  })
})
