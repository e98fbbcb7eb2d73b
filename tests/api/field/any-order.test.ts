import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { entrySubject } from '#domain/field/entry-subject.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { standingEntries } from '#domain/field/standing-entries.ts'
import { entryId, fieldEntry, note } from '../../support/field-entries.ts'
import {
  coverageTest,
  fieldPresent,
  fieldSite,
  hour,
  packets,
  reading,
  receiverRecord,
} from '../../support/field-site.ts'
import { type OpenField, openField } from '../../support/open-field.ts'

const site = 'test-quay'
const morning = Date.UTC(2027, 9, 20, 8)
const photo = 'a photo'
const sha256 = createHash('sha256').update(photo).digest('hex')
const attachments = [{ sha256, bytes: photo.length, mediaType: 'image/jpeg', name: 'wall.jpg' }]

const resolution = {
  kind: 'resolution',
  subject: 'coverage-test:T-4',
  chosen: entryId(13),
  reason: 'Counted again',
} as const
const written = (number: number, ...[body, more]: [FieldEntry['body'], Partial<FieldEntry>?]) =>
  fieldEntry(number, body, { site, ...more })

/** A round of two tablets: readings, one of a sensor that is not wired, notes, tests whole and waiting, corrected and disputed. */
const round: readonly FieldEntry[] = [
  ...[0, 1, 2, 3, 4].map((i) => written(i + 1, reading('SP-1', morning + i * hour, 3 + i / 8))),
  written(6, reading('SP-3', morning, 2)),
  written(7, note('Cover missing', 'SP-1'), { attachments }),
  written(8, note('Rain')),
  written(9, coverageTest('T-1', packets(7, 10, 9))),
  written(10, coverageTest('T-2', packets(7, 10, null))),
  written(11, receiverRecord('T-2', [7, 3])),
  written(12, coverageTest('T-4', packets(7, 10, 9))),
  written(13, coverageTest('T-4', packets(7, 10, 2)), { author: 'B. Other', device: entryId(0xd1) }),
  written(14, resolution, { follows: [entryId(12), entryId(13)] }),
  written(15, coverageTest('T-1', packets(7, 20, 19)), { follows: [entryId(9)] }),
  written(16, coverageTest('T-5', packets(9, 10, 5))),
  written(17, coverageTest('T-5', packets(9, 10, 6)), { author: 'B. Other', device: entryId(0xd1) }),
]

async function outcomeOf({ field, store, readings }: OpenField) {
  const model = await store.getSite(site)
  const { entries } = await field.list(site, 0)
  const texts = (rows: readonly object[] | undefined) =>
    rows?.map((row) => JSON.stringify(Object.entries(row).sort())).sort()
  return {
    readings: await readings(),
    diary: texts(model?.diary),
    coverageTests: texts(model?.coverageTests),
    entries: entries.map(({ entry }) => entry.id).sort(),
    differing: entries.filter(({ differs }) => differs).length,
    standing: standingEntries(entries.map(({ entry }) => entry))
      .map(({ subject, entries: heads, disputed }) => [subject, heads.map(({ id }) => id).sort(), disputed])
      .sort((one, other) => String(one[0]).localeCompare(String(other[0]))),
    outcomes: Object.fromEntries(
      entries.map(({ entry, effect }) => [entrySubject(entry) + entry.sequence, effect?.outcome]),
    ),
    missing: entries.flatMap(({ missingAttachments }) => missingAttachments),
  }
}

async function* photoBytes() {
  yield new TextEncoder().encode(photo)
}

async function sent(sendings: readonly (readonly FieldEntry[])[], photoAfter: number) {
  let nowEpochMs = fieldPresent
  const open = await openField(fieldSite(), () => nowEpochMs)
  try {
    for (const [i, sending] of sendings.entries()) {
      nowEpochMs += 1000
      if (i === photoAfter % sendings.length)
        await open.field.keepAttachment(site, sha256, 'image/jpeg', photoBytes())
      await open.field.add(site, sending)
      // Whether one is worked before the next arrives is left to chance.
      if (i % 2 === 1) await open.field.settled()
    }
    await open.field.settled()
    expect(open.reports).toEqual([])
    return await outcomeOf(open)
  } finally {
    await open.close()
  }
}

/** All entries in any order, cut into sendings anywhere, with any of them sent again at any time. */
const anySendings = fc
  .tuple(
    fc.shuffledSubarray([...round], { minLength: round.length, maxLength: round.length }),
    fc.array(fc.nat(round.length - 1), { maxLength: 12 }),
    fc.array(fc.nat(40), { maxLength: 6 }),
  )
  .map(([order, again, cuts]) => {
    const all = [...order]
    for (const [i, one] of again.entries())
      all.splice((one * 7 + i * 3) % (all.length + 1), 0, round[one] as FieldEntry)
    const ends = [...new Set(cuts.map((cut) => cut % all.length))].sort((one, other) => one - other)
    return [...ends, all.length].map((end, i) => all.slice(ends[i - 1] ?? 0, end))
  })

test('however entries are ordered, cut up and sent again, the same comes of them', async () => {
  const expected = await sent([round], 0)
  expect(expected).toMatchObject({ differing: 0, missing: [], entries: round.map(({ id }) => id).sort() })
  expect(expected.readings).toHaveLength(5)
  expect(expected.diary).toHaveLength(2)
  expect(expected.coverageTests).toHaveLength(3)
  expect(Object.values(expected.outcomes).filter((outcome) => outcome === undefined)).toEqual([])
  await fc.assert(
    fc.asyncProperty(anySendings, fc.nat(), async (sendings, photoAfter) => {
      expect(await sent(sendings, photoAfter)).toEqual(expected)
    }),
    { numRuns: 25 },
  )
}, 120_000)
