import { describe, expect, test } from 'vitest'
import type { Issue } from '#domain/outcome.ts'
import { readSite } from '#domain/site/read-site.ts'
import { smallSite } from './small-site.ts'

const usual = {
  id: 'W-1',
  series: 'PZ-1A/pore-pressure',
  level: '1',
  direction: 'above',
  value: '5',
  validFrom: '2027-03-01T00:00:00Z',
  validUntil: '',
  action: 'look',
  owner: 'Duty engineer',
  withinMinutes: '60',
  reason: 'report',
  author: 'A. Reed',
  approver: 'B. Moss',
}
const added = [
  'watches',
  'against',
  'needed',
  'windowMinutes',
  'changeSince',
  'stage',
  'holdReadings',
  'holdMinutes',
  'hysteresisShare',
  'longestGapMinutes',
]
type Given = Readonly<Record<string, string>>

/** Issues of the small site with trigger levels that have the newer columns too. */
function issuesWith(...rows: readonly Given[]): readonly Issue[] {
  const headings = [...Object.keys(usual), ...added]
  const lines = rows.map((row) => headings.map((heading) => ({ ...usual, ...row })[heading] ?? '').join(','))
  const read = readSite(
    smallSite().set('trigger-levels.csv', `${[headings.join(','), ...lines].join('\n')}\n`),
  )
  return read.ok ? [] : read.issues
}

const rate = { watches: 'rate', windowMinutes: '1440' }
const silence = { watches: 'silence', value: '120' }
const combination = { watches: 'combination', value: '2', id: 'W-C', against: 'W-1;W-2' }
const two = [{}, { id: 'W-2', series: 'ST-1/force', value: '100' }]

describe('what a level watches', () => {
  test.each<[string, readonly Given[]]>([
    ['persistence and hysteresis', [{ holdReadings: '3', holdMinutes: '60', hysteresisShare: '0.1' }]],
    ['change', [{ watches: 'change', changeSince: '2027-02-20T00:00:00Z' }]],
    ['rate beside a value of the same number', [{}, { id: 'W-2', ...rate }]],
    ['rates over two windows', [rate, { id: 'W-2', watches: 'rate', windowMinutes: '60', value: '9' }]],
    ['silence', [silence]],
    ['combination', [...two, combination]],
    ['one of two', [...two, { ...combination, value: '1', needed: '1' }]],
    ['stages that meet', [{ stage: 'S1' }, { id: 'W-2', stage: 'S2', value: '4' }]],
    ['a difference', [{ watches: 'difference', against: 'BA-1/barometric-pressure', windowMinutes: '60' }]],
  ])('%s is taken', (_, rows) => {
    expect(issuesWith(...rows)).toEqual([])
  })

  test.each<[string, string, readonly Given[], RegExp]>([
    ['level-incomplete', 'windowMinutes', [{ watches: 'rate' }], /watches a rate: give windowMinutes/],
    ['level-incomplete', 'changeSince', [{ watches: 'change' }], /give changeSince/],
    ['level-incomplete', 'against', [{ watches: 'difference', windowMinutes: '60' }], /give against/],
    ['column-without-meaning', 'windowMinutes', [{ windowMinutes: '60' }], /Leave it empty/],
    ['column-without-meaning', 'holdReadings', [{ ...silence, holdReadings: '2' }], /watches silence/],
    ['direction-without-meaning', 'direction', [{ ...silence, direction: 'below' }], /Write above/],
    ['out-of-range', 'value', [{ ...silence, value: '0' }], /minutes that may pass/],
    [
      'change-since-later',
      'changeSince',
      [{ watches: 'change', changeSince: '2027-03-02T00:00:00Z' }],
      /watch nothing/,
    ],
    [
      'series-unknown',
      'against',
      [{ watches: 'difference', against: 'BA-1/barometric-presure', windowMinutes: '9' }],
      /Did you mean/,
    ],
    [
      'against-unlike',
      'against',
      [{ watches: 'difference', against: 'PZ-1A/temperature', windowMinutes: '9' }],
      /same unit/,
    ],
    [
      'against-unlike',
      'against',
      [{ watches: 'difference', against: 'PZ-1A/pore-pressure', windowMinutes: '9' }],
      /another series/,
    ],
    ['level-unknown', 'against', [...two, { ...combination, against: 'W-1;W-3' }], /no level "W-3"/],
    ['members-too-few', 'against', [...two, { ...combination, against: 'W-1', value: '1' }], /two or more/],
    ['out-of-range', 'needed', [...two, { ...combination, needed: '3', value: '3' }], /never be reached/],
    ['value-unlike-needed', 'value', [...two, { ...combination, value: '1' }], /write 2/],
    ['combination-of-itself', 'against', [...two, { ...combination, against: 'W-1;W-C' }], /made of itself/],
    [
      'combination-of-itself',
      'against',
      [...two, { ...combination, against: 'W-1;W-D' }, { ...combination, id: 'W-D', against: 'W-2;W-C' }],
      /made of itself/,
    ],
    ['reference-broken', 'stage', [{ stage: 'S9' }], /stages\.csv/],
    ['level-never-applies', 'stage', [{ stage: 'S1', validFrom: '2027-06-01T00:00:00Z' }], /First dig/],
    ['level-repeated', 'level', [{}, { id: 'W-2', stage: 'S2' }], /already applies/],
    ['level-order', 'value', [rate, { id: 'W-2', level: '2', ...rate, value: '4' }], /must lie above 5/],
  ])('%s in %s is refused', (code, column, rows, says) => {
    const found = issuesWith(...rows).find((issue) => issue.code === code)
    expect(found).toMatchObject({ file: 'trigger-levels.csv', column })
    expect(found?.message).toMatch(says)
  })

  test('levels of stages that overlap are refused with both stages named', () => {
    const files = smallSite()
    const stages = (files.get('stages.csv') ?? '').replace(
      '2027-05-24T00:00:00Z,-2',
      '2027-05-25T00:00:00Z,-2',
    )
    const headings = [...Object.keys(usual), 'stage']
    const rows = [{ stage: 'S1' }, { id: 'W-2', stage: 'S2' }].map((row) =>
      headings.map((heading) => (({ ...usual, ...row }) as Given)[heading] ?? '').join(','),
    )
    files.set('stages.csv', stages).set('trigger-levels.csv', `${[headings.join(','), ...rows].join('\n')}\n`)
    const read = readSite(files)
    expect(read.ok ? [] : read.issues).toMatchObject([{ code: 'stages-overlap', line: 3, column: 'stage' }])
    expect(read.ok ? '' : read.issues[0]?.message).toMatch(
      /“First dig” \(S1, line 2\) and “Second dig” \(S2\)/,
    )
  })
})
