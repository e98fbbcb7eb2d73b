import { describe, expect, it, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = {
  'aquifers.csv': 'stratum,transmissivityM2PerS,storativity,boundaryLine,boundaryKind,source,author',
  'wells.csv':
    'id,eastingMetres,northingMetres,radiusMetres,stratum,screenTopLevelMetres,screenBaseLevelMetres,note',
  'pumping-rates.csv': 'well,fromAt,rateLitresPerSecond,author',
}
const sound = {
  'aquifers.csv': 'soft clay,0.002,0.0004,wall,held-level,Design report,A. Reed',
  'wells.csv': 'W-1,500060,310028,0.3,soft clay,-6.5,-14.5,one of eight',
  'pumping-rates.csv': 'W-1,2027-04-22T06:00:00Z,22,A. Reed\nW-1,2027-06-01T00:00:00Z,0,A. Reed',
}

function read(changed: Partial<typeof sound>) {
  const files = smallSite()
  for (const [file, rows] of Object.entries({ ...sound, ...changed }))
    files.set(file, `${headings[file as keyof typeof headings]}\n${rows}\n`)
  return readSite(files)
}

describe('wells, rates and aquifers', () => {
  it('are read, and written out again', () => {
    const outcome = read({})
    if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
    expect(outcome.value.wells).toMatchObject([{ id: 'W-1', screenBaseLevelMetres: -14.5 }])
    expect(outcome.value.pumpingRates).toMatchObject([
      { rateLitresPerSecond: 22 },
      { rateLitresPerSecond: 0 },
    ])
    expect(outcome.value.aquifers).toMatchObject([
      { transmissivityM2PerS: 0.002, boundaryKind: 'held-level' },
    ])
    expect(readSite(writeSite(outcome.value))).toEqual(outcome)
  })

  it('may be left out of a folder', () => {
    const outcome = readSite(smallSite())
    expect(outcome.ok && [outcome.value.wells, outcome.value.pumpingRates, outcome.value.aquifers]).toEqual([
      [],
      [],
      [],
    ])
  })
})

test.each([
  ['aquifers.csv', 'soft clai,0.002,0.0004,,,Design report,A. Reed', 'stratum-unknown', 'stratum'],
  ['aquifers.csv', 'soft clay,0.002,0.0004,wal,no-flow,Report,A. Reed', 'boundary-unknown', 'boundaryLine'],
  ['aquifers.csv', 'soft clay,0.002,0.0004,box,no-flow,Report,A. Reed', 'boundary-unknown', 'boundaryLine'],
  ['aquifers.csv', 'soft clay,0.002,0.0004,wall,,Report,A. Reed', 'boundary-half-stated', 'boundaryKind'],
  ['aquifers.csv', 'soft clay,0,0.0004,,,Report,A. Reed', undefined, 'transmissivityM2PerS'],
  ['wells.csv', 'W-1,500060,310028,0.3,gravel,,,', 'stratum-unknown', 'stratum'],
  ['wells.csv', 'W-1,500060,310028,0.3,soft clay,-14.5,-6.5,', 'top-below-base', 'screenTopLevelMetres'],
  ['wells.csv', 'W-1,500060,310028,0,soft clay,,,', undefined, 'radiusMetres'],
  ['pumping-rates.csv', 'W-2,2027-04-22T06:00:00Z,22,A. Reed', 'reference-broken', 'well'],
] as const)('%s with %s is refused', (file, row, code, column) => {
  const outcome = read({ [file]: row })
  const expected = { file, line: 2, column, ...(code === undefined ? {} : { code }) }
  expect(outcome.ok ? [] : outcome.issues).toContainEqual(expect.objectContaining(expected))
})
