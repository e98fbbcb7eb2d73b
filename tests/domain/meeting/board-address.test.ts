import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addressFault, longestAddress } from '#domain/meeting/board-address.ts'

const site = 'small-quay'
const names = fc.stringMatching(/^[a-z][a-z-]{0,20}$/).filter((name) => !reserved.includes(name))
const reserved = ['site', 'meeting', 'board', 'frozen']
const values = fc.string({ unit: 'grapheme', maxLength: 30 }).filter(hasNoControl)

function hasNoControl(text: string): boolean {
  return [...text].every((character) => character >= ' ' && character !== '\u007f')
}

// URLSearchParams writes the addresses of the page, and is a standard of its own (WHATWG URL).
test('whatever the page writes as its address may stand on a board', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(names, values), { maxLength: 10 }), (parts) => {
      const address = new URLSearchParams([['site', site], ...parts]).toString()
      fc.pre(address.length <= longestAddress)
      expect(addressFault(address, site)).toBeNull()
    }),
    { seed: 7 },
  )
})

test('what may stand on a board leads to the page that has it, and to its own site', () => {
  const texts = fc.oneof(
    fc.string({ maxLength: 40 }),
    fc.constantFrom('//', 'https:', 'javascript:', '\\', '?', '#', '/', '@', '..', '%2F', '\n', '\t', ':80'),
    fc.constantFrom(`site=${site}`, '&', '=', 'site=other-quay', 'SITE=x', 'site%3Dx'),
  )
  let taken = 0
  fc.assert(
    fc.property(fc.array(texts, { maxLength: 6 }), (parts) => {
      const address = parts.join('')
      if (addressFault(address, site) !== null) return
      taken++
      for (const from of ['https://works.example/', 'https://works.example/a?b']) {
        const led = new URL(`?${address}`, from)
        expect([led.origin, led.hash]).toEqual(['https://works.example', ''])
        expect([[site], []]).toContainEqual(led.searchParams.getAll('site'))
      }
    }),
    { seed: 7, numRuns: 2000 },
  )
  expect(taken).toBeGreaterThan(5)
})

test.each([
  '',
  'https://elsewhere.example/',
  `https://elsewhere.example/?site=${site}`,
  `//elsewhere.example/?site=${site}`,
  `javascript:alert(1)`,
  `javascript:alert(1)//&site=${site}`,
  `site=${site}#there`,
  `?site=${site}`,
  `site=${site}&find=<script>`,
  `site=${site}&find="`,
  `site=${site}&find=%00`,
  `site=${site}&find=%E0%A4%A`,
  `site=${site}&&at=x`,
  `site=${site}&site=${site}`,
  `site=${site}&meeting=1`,
  `site=${site}&board=1`,
  `site=${site}&frozen=0000000000000000`,
  'site=other-quay',
])('%s may not', (address) => {
  expect(addressFault(address, site)).toMatch(/[.]$/)
})

test('a board of a folder may name no site: the folder may be copied for another', () => {
  expect(addressFault('at=2027-01-01', site)).toBeNull()
})

test('an address may be as long as is said, and no longer', () => {
  const of = (length: number) => `site=${site}&find=`.padEnd(length, 'a')
  expect(addressFault(of(longestAddress), site)).toBeNull()
  expect(addressFault(of(longestAddress + 1), site)).toContain('4001 characters')
})
