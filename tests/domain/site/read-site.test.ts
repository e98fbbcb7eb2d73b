import { describe, expect, test } from 'vitest'
import type { Issue } from '#domain/outcome.ts'
import { optionalSiteFiles, readSite, siteFiles } from '#domain/site/read-site.ts'
import { folderFaults } from './folder-faults.ts'
import { smallSite, smallSiteWith } from './small-site.ts'

function issuesOf(files: ReadonlyMap<string, string>): readonly Issue[] {
  const outcome = readSite(files)
  return outcome.ok ? [] : outcome.issues
}

describe('a sound folder', () => {
  test('is read whole', () => {
    const outcome = readSite(smallSite())
    expect(outcome.ok ? [] : outcome.issues).toEqual([])
    if (!outcome.ok) return
    const site = outcome.value
    expect(site.facts.levelNames).toEqual(['Level 1', 'Level 2'])
    expect(site.facts.presentEpochMs).toBe(Date.UTC(2027, 9, 31, 12))
    expect(site.works.features.map((feature) => feature.properties.barrier)).toEqual([false, true])
    expect(site.works.features[1]?.properties.fromEpochMs).toBe(Date.UTC(2027, 2, 15))
    expect(site.locations[0]).toEqual({
      id: 'BH-1',
      kind: 'hole',
      eastingMetres: 500030,
      northingMetres: 309990,
      collarLevelMetres: 4.6,
      azimuthDegrees: 0,
      dipDegrees: 90,
      lengthMetres: 22,
      surveyedAt: Date.UTC(2027, 0, 20, 9),
      surveyedBy: 'A. Reed',
    })
    expect(site.instruments[1]?.note).toBe('first, upper')
    expect(site.instruments[1]?.critical).toBe(true)
    expect(site.strata[0]?.compressibilityM2PerKn).toBeNull()
    expect(site.wiring).toHaveLength(3)
  })

  test('reads the same with byte order marks, CRLF, and rows of bare commas', () => {
    const plain = readSite(smallSite())
    const files = new Map(
      [...smallSite()].map(([file, text]) => [file, `\ufeff${text.replaceAll('\n', '\r\n')}`]),
    )
    files.set('gateways.csv', `${files.get('gateways.csv')},,\r\n`)
    expect(readSite(files)).toEqual(plain)
  })

  test('may hold other files, and columns in another order', () => {
    const files = smallSite().set('README.md', '# anything')
    files.set('gateways.csv', 'antennaHeightMetres,id,location\n12,GW-1,M-1\n')
    expect(readSite(files)).toEqual(readSite(smallSite()))
  })
})

describe('each fault names its file, line, heading and value', () => {
  test.each(folderFaults)('%s: %s → %s', (file, from, to, expected, says) => {
    const issues = issuesOf(smallSiteWith(file, from, to))
    expect(issues).toContainEqual(expect.objectContaining({ file, ...expected }))
    const found = issues.find((issue) => issue.code === expected.code)
    expect(found?.message).toMatch(says)
  })

  test.each(siteFiles.filter((file) => !optionalSiteFiles.includes(file)))('missing %s', (file) => {
    const files = smallSite()
    files.delete(file)
    const issues = issuesOf(files)
    expect(issues.map(({ code, file }) => [code, file])).toEqual([['file-missing', file]])
  })

  test.each(siteFiles)('empty %s', (file) => {
    const issues = issuesOf(smallSite().set(file, ''))
    expect(issues.some((issue) => issue.file === file)).toBe(true)
  })
})

test('all faults of all files are told at once, in file and line order, and nothing is loaded', () => {
  const files = smallSiteWith('locations.csv', '0,90,22', '0,95,22')
  files.set('locations.csv', (files.get('locations.csv') ?? '').replace('SP-1,surface', 'SP-1,surfac'))
  files.set('gateways.csv', (files.get('gateways.csv') ?? '').replace('M-1,12', 'M-9,high'))
  files.delete('diary.csv')
  const issues = issuesOf(files)
  expect(issues.map(({ file, line, code }) => [file, line, code])).toEqual([
    ['locations.csv', 2, 'out-of-range'],
    ['locations.csv', 3, 'choice-unknown'],
    ['gateways.csv', 2, 'number-expected'],
    ['diary.csv', undefined, 'file-missing'],
  ])
  for (const issue of issues) expect(issue.message).toMatch(/\.$|\?$/)
})

test('a fault in one row does not make others look faulty', () => {
  // The hole's length is unreadable: points in it cannot be judged, and references to it still hold.
  const issues = issuesOf(smallSiteWith('locations.csv', '0,90,22', '0,90,deep'))
  expect(issues.map(({ code }) => code)).toEqual(['number-expected'])
  // A calibration version that cannot be read must not leave a gap in the numbering.
  const versions = issuesOf(smallSiteWith('calibrations.csv', '1,2027-01-01T00:00:00Z', '1,first of January'))
  expect(versions.map(({ code }) => code)).toEqual(['instant-expected'])
})
