import { expect, it } from 'vitest'
import { checkPositions } from '#domain/site/check-positions.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteReadings } from '#domain/site/site-readings.ts'
import { smallSite } from './small-site.ts'

const places = [
  ['BH-1', '500030,309990'],
  ['SP-1', '500050,309980'],
  ['M-1', '500125,310035'],
] as const

function faultsOf(moved: Readonly<Record<string, string>>) {
  const files = smallSite()
  let text = files.get('locations.csv') ?? ''
  for (const [id, place] of places)
    text = text.replace(new RegExp(`^(${id},[a-z]+,)${place},`, 'm'), `$1${moved[id] ?? place},`)
  files.set('locations.csv', text)
  const outcome = readSite(files)
  return outcome.ok ? [] : outcome.issues.filter(({ file }) => file === 'locations.csv')
}

it('takes positions as they are, also of a grid of the site’s own near its origin', () => {
  expect(faultsOf({})).toEqual([])
  expect(faultsOf({ 'BH-1': '30,10', 'SP-1': '50,20', 'M-1': '25,35' })).toEqual([])
})

it('refuses positions that are all degrees, by file and line', () => {
  const moved = { 'BH-1': '-29.9996,47.9999', 'SP-1': '-29.9993,47.9998', 'M-1': '-29.9983,48.0003' }
  expect(faultsOf(moved)).toMatchObject([
    { code: 'coordinates-in-degrees', line: 2, column: 'eastingMetres', value: '-29.9996' },
  ])
})

it('refuses one in degrees among metres, and one that is mistyped', () => {
  expect(faultsOf({ 'SP-1': '-29.9993,47.9998' })).toMatchObject([
    { code: 'position-far-off', line: 3, message: expect.stringMatching(/SP-1 .*longitude and a latitude/) },
  ])
  expect(faultsOf({ 'SP-1': '5000050,309980' })).toMatchObject([
    { code: 'position-far-off', message: expect.stringMatching(/4500 km .*digit/) },
  ])
})

it('names both of two places that stand too far apart: nothing says which is mistyped', () => {
  const place = (id: string, eastingMetres: number, line: number) => ({
    line,
    row: { id, eastingMetres, northingMetres: 310_000 },
  })
  const readings = {
    locations: { sound: [place('A', 500_000, 2), place('B', 5_000_000, 3)] },
    wells: { sound: [] },
  } as unknown as SiteReadings
  expect(checkPositions(readings).map(({ line }) => line)).toEqual([2, 3])
})
