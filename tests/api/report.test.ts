import { expect, it } from 'vitest'
import { createReport } from '../../api/report.ts'

it('writes the instant in UTC before each matter, whatever the zone of the machine', () => {
  const lines: string[] = []
  createReport(
    () => Date.UTC(2027, 9, 31, 1, 30),
    (line) => lines.push(line),
  )('Sign-in by ada, 192.0.2.7: let in')
  expect(lines).toEqual(['2027-10-31T01:30:00.000Z Sign-in by ada, 192.0.2.7: let in'])
})
