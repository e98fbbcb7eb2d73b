import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const start = (() => {
  const outcome = readSite(smallSite())
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
})()

/** Texts a person may write, those that begin like formulae or hold commas, quotes and line breaks among them. */
const words = fc
  .oneof(
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }),
    fc.constantFrom(
      '=1+1',
      "'=x",
      "''-3",
      '+ve is up',
      '-',
      '@home',
      'a,b',
      'say "no"',
      'two\nlines',
      'cr\rlf\r\n',
      ';',
      '\ufeffbom',
    ),
  )
  .map((text) => text.trim())
  .filter((text) => text !== '')
const finite = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => (value === 0 ? 0 : value))
const instant = fc.integer({ min: -62_167_219_200_000, max: 253_402_300_799_999 })
const orNull = <T>(value: fc.Arbitrary<T>) => fc.option(value)

/** The small site with everything varied that its checks leave free, and many rows of some tables. */
const models: fc.Arbitrary<SiteModel> = fc
  .record({
    name: words,
    note: orNull(words),
    groundLevelMetres: finite,
    levelNames: fc.uniqueArray(
      words.filter((name) => !name.includes(';')),
      { minLength: 2, maxLength: 6 },
    ),
    gateways: fc.uniqueArray(
      fc.record({
        id: words,
        location: fc.constant('M-1'),
        antennaHeightMetres: fc.double({ min: 0, max: 300, noNaN: true }),
      }),
      { selector: ({ id }) => id },
    ),
    diary: fc.uniqueArray(
      fc.record({
        at: instant,
        untilAt: fc.constant(null),
        kind: fc.constantFrom('works' as const, 'note' as const),
        text: words,
        place: orNull(fc.tuple(finite, finite)),
        author: words,
      }),
      { selector: ({ at, text }) => `${at} ${text}` },
    ),
    works: fc.uniqueArray(
      fc.record({
        id: words,
        kind: fc.constantFrom('wall' as const, 'building' as const),
        name: words,
        barrier: fc.boolean(),
        fromEpochMs: orNull(instant),
        untilEpochMs: fc.constant(null),
        topLevelMetres: orNull(finite),
        baseLevelMetres: fc.constant(null),
      }),
      { selector: ({ id }) => id, minLength: 0, maxLength: 5 },
    ),
    corners: fc.array(
      fc.tuple(
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
      ),
      { minLength: 2, maxLength: 6 },
    ),
    surveyedAt: instant,
  })
  .map(({ name, note, groundLevelMetres, levelNames, gateways, diary, works, corners, surveyedAt }) => ({
    ...start,
    facts: { ...start.facts, name, groundLevelMetres, levelNames },
    works: {
      type: 'FeatureCollection',
      features: works.map((properties) => ({
        type: 'Feature',
        geometry: {
          type: 'LineString',
          coordinates: corners.map((corner) => corner.map((value) => (value === 0 ? 0 : value))),
        },
        properties,
      })),
    },
    locations: start.locations.map((location) => ({ ...location, surveyedAt })),
    instruments: start.instruments.map((instrument) => ({ ...instrument, note })),
    gateways: gateways.map((gateway) => ({
      ...gateway,
      antennaHeightMetres: gateway.antennaHeightMetres || 0,
    })),
    diary: diary.map(({ place, ...entry }) => ({
      ...entry,
      eastingMetres: place?.[0] ?? null,
      northingMetres: place?.[1] ?? null,
    })),
  }))

test('what is written is read back as the same site', () => {
  fc.assert(
    fc.property(models, (model) => {
      const outcome = readSite(writeSite(model))
      expect(outcome.ok ? [] : outcome.issues).toEqual([])
      if (outcome.ok) expect(outcome.value).toEqual(model)
    }),
    { seed: 6, numRuns: 200 },
  )
})

test('a text that a spreadsheet would run as a formula is written behind an apostrophe, a number is not', () => {
  const model: SiteModel = {
    ...start,
    gateways: [{ id: '=cmd()', location: 'M-1', antennaHeightMetres: 3 }],
    diary: [
      { at: 0, untilAt: null, kind: 'note', text: 'x', eastingMetres: -5, northingMetres: -6.5, author: '-' },
    ],
  }
  const files = writeSite(model)
  expect(files.get('gateways.csv')).toBe("id,location,antennaHeightMetres\r\n'=cmd(),M-1,3\r\n")
  expect(files.get('diary.csv')?.split('\r\n')[1]).toBe("1970-01-01T00:00:00Z,,note,x,-5,-6.5,'-")
})
