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

const newHeadings = `${headings},cause,confidence,effects,oddity,evidenceFromAt,evidenceUntilAt,rulesVersion`
const said = `${sound},sensor,very likely,visit ordered; re-zero,value,2027-05-01T00:00:00Z,2027-07-02T08:00:00Z,2026-11-26`
const evidenceHeadings =
  'verdict,line,cause,rule,stands,decibans,sentence,figure,figureLow,figureHigh,figureUnit'
const withSaid = (row: string, evidence = 'V-1,1,ground,start,for,6,Taken as real.,,,,') =>
  readSite(
    smallSite()
      .set('verdicts.csv', `${[newHeadings, row].join('\n')}\n`)
      .set('verdict-evidence.csv', `${[evidenceHeadings, evidence].join('\n')}\n`)
      .set(
        'verdict-reviews.csv',
        'verdict,at,outcome,found,reason,author\nV-1,2027-08-01T00:00:00Z,reopened,It agrees again,To be judged anew,B. Sedge\n',
      ),
  )

it('reads and writes what it is laid on, how sure, what follows, its evidence and second looks', () => {
  const site = withSaid(said)
  if (!site.ok) throw new Error(site.issues[0]?.message)
  expect(site.value.verdicts).toMatchObject([
    { cause: 'sensor', confidence: 'very likely', effects: 'visit ordered; re-zero', oddity: 'value' },
  ])
  expect(site.value.verdictEvidence).toMatchObject([{ verdict: 'V-1', line: 1, decibans: 6, figure: null }])
  const written = writeSite(site.value)
  expect(written.get('verdicts.csv')?.trim().split(/\r?\n/)).toEqual([newHeadings, said])
  expect(written.get('verdict-reviews.csv')).toContain('reopened,It agrees again')
})

it.each([
  [said.replace('very likely', ''), 'confidence', 'confidence-missing'],
  [said.replace(',sensor,', ',,'), 'confidence', 'cause-missing'],
  [said.replace('re-zero', 'burn it'), 'effects', 'effect-unknown'],
  [said.replace(',sensor,', ',ghost,'), 'cause', 'choice-unknown'],
])('refuses %s: %s', (row, column, code) => {
  const site = withSaid(row)
  expect(site.ok ? [] : site.issues.map((issue) => [issue.file, issue.column, issue.code])).toEqual([
    ['verdicts.csv', column, code],
  ])
})

it('refuses evidence and second looks of a verdict that is not there', () => {
  const site = withSaid(said, 'V-9,1,ground,start,for,6,Taken as real.,,,,')
  expect(site.ok ? [] : site.issues.map(({ file, column }) => [file, column])).toEqual([
    ['verdict-evidence.csv', 'verdict'],
  ])
})
