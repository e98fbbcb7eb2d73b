import { expect, it } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'id,series,fromAt,untilAt,verdict,reason,alternatives,author,at'
const withVerdicts = (...rows: string[]) =>
  readSite(smallSite().set('verdicts.csv', `${[headings, ...rows].join('\n')}\n`))
const sound =
  'V-1,PZ-1A/pore-pressure,2027-06-01T00:00:00Z,,doubtful,Drifts from its neighbour,Drawdown: dips stand still,A. Reed,2027-07-02T09:00:00Z'

it('reads verdicts, and writes them as they were', () => {
  const site = withVerdicts(sound)
  if (!site.ok) throw new Error(site.issues[0]?.message)
  expect(site.value.verdicts).toMatchObject([{ id: 'V-1', verdict: 'doubtful', untilAt: null }])
  expect(writeSite(site.value).get('verdicts.csv')?.trim().split(/\r?\n/)).toEqual([headings, sound])
  const without = readSite(smallSite())
  expect(without.ok && without.value.verdicts).toEqual([])
})

it.each([
  [sound.replace('PZ-1A/', 'PZ-9/'), 'series', 'series-unknown'],
  [sound.replace('00:00Z,,', '00:00Z,2027-05-01T00:00:00Z,'), 'untilAt', 'ends-before-begin'],
  [sound.replace('Drifts from its neighbour', ''), 'reason', 'cell-empty'],
  [sound.replace('A. Reed', ''), 'author', 'cell-empty'],
  [sound.replace('Drawdown: dips stand still', ''), 'alternatives', 'cell-empty'],
  [sound.replace('doubtful', 'fine'), 'verdict', 'choice-unknown'],
])('refuses %s: %s', (row, column, code) => {
  const site = withVerdicts(row)
  expect(
    site.ok ? [] : site.issues.map((issue) => [issue.file, issue.line, issue.column, issue.code]),
  ).toEqual([['verdicts.csv', 2, column, code]])
})
