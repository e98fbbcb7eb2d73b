import { expect, it } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'id,instrument,measure,stage,depthMetres,low,high,source,author,validFrom'
const withPredictions = (...rows: string[]) =>
  readSite(smallSite().set('predictions.csv', `${[headings, ...rows].join('\n')}\n`))
const sound = 'PD-1,PZ-1,pore-pressure,S1,5,20,35.5,Design report,A. Reed,2027-03-01T00:00:00Z'

it('reads predictions, and writes them as they were', () => {
  const site = withPredictions(sound)
  if (!site.ok) throw new Error(site.issues[0]?.message)
  expect(site.value.predictions).toMatchObject([{ id: 'PD-1', low: 20, high: 35.5, depthMetres: 5 }])
  expect(writeSite(site.value).get('predictions.csv')?.trim().split(/\r?\n/)).toEqual([headings, sound])
})

it.each([
  [[sound.replace('PZ-1,', 'PZ-9,')], 'instrument', 'reference-broken'],
  [[sound.replace(',S1,', ',none,')], 'stage', 'reference-broken'],
  [[sound.replace(',20,', ',40,')], 'high', 'range-reversed'],
  [[sound.replace(',5,20', ',500,20')], 'depthMetres', 'below-hole'],
  [[sound.replace('Design report', '')], 'source', 'cell-empty'],
  [[sound, sound.replace('PD-1', 'PD-2')], 'validFrom', 'prediction-repeated'],
])('refuses %s: %s', (rows, column, code) => {
  const site = withPredictions(...rows)
  expect(site.ok ? [] : site.issues.map((issue) => [issue.column, issue.code])).toEqual([[column, code]])
})
