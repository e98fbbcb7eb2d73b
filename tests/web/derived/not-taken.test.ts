import { expect, test } from 'vitest'
import { refusedWork } from '../../../web/derived/not-taken.ts'
import { latestReadingsHere, readingsHere } from '../../../web/derived/readings-here.ts'
import type { KnownEntry } from '../../../web/state/field-work.ts'

const reading = (
  id: string,
  atEpochMs: number,
  delivery: 'waiting' | 'delivered' | 'differs' | 'unreadable' | null,
  outcome: 'taken' | 'refused' | null,
  more: { readonly differs?: boolean; readonly follows?: readonly string[] } = {},
) =>
  ({
    entry: {
      id,
      follows: more.follows ?? [],
      body: { kind: 'reading', sensor: 'WS-01/water-level', atEpochMs, raw: 4, confirmedBecause: null },
    },
    own: delivery && { delivery },
    stored: outcome && { differs: more.differs ?? false, effect: { outcome, sentence: '', batch: null } },
  }) as unknown as KnownEntry

test('a reading that the server did not take is not one that was read', () => {
  const known = [
    reading('taken', 1, 'delivered', 'taken'),
    reading('waiting', 2, 'waiting', null),
    reading('refused', 3, 'delivered', 'refused'),
    reading('refused elsewhere', 4, null, 'refused'),
    reading('unreadable', 5, 'unreadable', null),
    reading('differs', 6, 'differs', null),
    reading('other of one id', 7, null, 'taken', { differs: true }),
  ]
  expect(readingsHere(known).map(({ atEpochMs }) => atEpochMs)).toEqual([1, 2])
  expect(latestReadingsHere(known)).toEqual(new Map([['WS-01/water-level', 2]]))
})

test('what was refused of this device is counted until a later entry follows it', () => {
  const known = [
    reading('a', 1, 'delivered', 'refused'),
    reading('b', 2, null, 'refused'),
    reading('c', 3, 'delivered', 'refused'),
    reading('d', 4, 'delivered', 'taken', { follows: ['c'] }),
  ]
  expect(refusedWork(known)).toEqual({ readings: 1, others: 0 })
})
