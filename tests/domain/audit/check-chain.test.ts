import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type AuditEntry,
  type ChainedEntry,
  canonicalEntry,
  chainHash,
  chainStart,
} from '#domain/audit/audit-entry.ts'
import { checkChain, compareHead, explainBreak } from '#domain/audit/check-chain.ts'
import { sha256 } from '../../../api/store/sha256.ts'

const entryOf = (number: number, after = `{"value":${number}}`): AuditEntry => ({
  number,
  site: 'small-quay',
  atEpochMs: 1_800_000_000_000 + number,
  account: null,
  name: 'A. Tester',
  action: 'changed',
  subjectKind: 'triggerLevels',
  subjectKey: 'TL-1',
  version: number,
  before: null,
  after,
  why: 'test',
})

function chainOf(count: number): ChainedEntry[] {
  const chain: ChainedEntry[] = []
  let hash = chainStart.hash
  for (let number = 1; number <= count; number++) {
    const entry = entryOf(number)
    hash = chainHash(hash, entry, sha256)
    chain.push({ entry, hash })
  }
  return chain
}

const at = (chain: readonly ChainedEntry[], place: number) => chain[place] as ChainedEntry
const renumbered = (chain: readonly ChainedEntry[]) =>
  chain.map(({ entry, hash }, i) => ({ entry: { ...entry, number: i + 1 }, hash }))

/** What is said of a chain: null where it fits. */
function judge(chain: readonly ChainedEntry[]) {
  const { fits, head } = checkChain(chain, chainStart, sha256)
  return fits === chain.length ? null : explainBreak(chain.slice(fits), head, sha256)
}

describe('hash of the chain', () => {
  // FIPS 180-4 through its example values (NIST, "SHA-256 example (one block)" and the empty message of the CAVP
  // short-message vectors).
  it('is SHA-256', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
    expect(sha256('')).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855')
    expect(sha256('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    )
  })

  it('is of the previous hash and the canonical text, which anyone can work out again', () => {
    const [first, second] = chainOf(2)
    const text =
      '{"account":null,"action":"changed","after":"{\\"value\\":2}","atEpochMs":1800000000002,"before":null,' +
      '"name":"A. Tester","number":2,"site":"small-quay","subjectKey":"TL-1","subjectKind":"triggerLevels","version":2,"why":"test"}'
    expect(canonicalEntry(entryOf(2))).toBe(text)
    expect(second?.hash).toBe(
      createHash('sha256')
        .update(first?.hash ?? '')
        .update(text)
        .digest('hex'),
    )
  })

  it('has its names in the order of RFC 8785 (UTF-16 code units)', () => {
    const names = Object.keys(JSON.parse(canonicalEntry(entryOf(1))))
    expect(names).toEqual([...names].sort())
    expect(names.toSorted()).toEqual(Object.keys(entryOf(1)).toSorted())
  })
})

describe('checkChain and explainBreak', () => {
  it('find nothing in a chain as it was written, whole or in pieces', () => {
    const chain = chainOf(12)
    expect(judge(chain)).toBeNull()
    const half = checkChain(chain.slice(0, 5), chainStart, sha256)
    expect(checkChain(chain.slice(5), half.head, sha256)).toEqual({
      fits: 7,
      head: { number: 12, hash: at(chain, 11).hash },
    })
  })

  it('name an entry that was altered', () => {
    const chain = chainOf(8)
    chain[3] = { entry: { ...at(chain, 3).entry, why: 'nothing' }, hash: at(chain, 3).hash }
    expect(judge(chain)).toMatchObject({ kind: 'altered', number: 4 })
    chain[3] = { ...at(chain, 3), hash: chainHash(at(chain, 2).hash, at(chain, 3).entry, sha256) }
    // Its hash now fits: what follows no longer does.
    expect(judge(chain)).toMatchObject({ kind: 'altered', number: 5 })
  })

  it('name entries that were taken out, whether their numbers were closed up or not', () => {
    const chain = chainOf(9)
    const without = chain.toSpliced(3, 2)
    expect(judge(without)).toMatchObject({ kind: 'missing', number: 4 })
    expect(judge(renumbered(without))).toMatchObject({ kind: 'missing', number: 4 })
    expect(judge(chain.slice(1))).toMatchObject({ kind: 'missing', number: 1 })
  })

  it('name an entry that was put in', () => {
    const chain = chainOf(9)
    const forged = { entry: entryOf(5, '{"value":0}'), hash: 'f'.repeat(64) }
    const hashed = { ...forged, hash: chainHash(at(chain, 3).hash, forged.entry, sha256) }
    expect(judge(renumbered(chain.toSpliced(4, 0, forged)))).toMatchObject({ kind: 'inserted', number: 5 })
    expect(judge(renumbered(chain.toSpliced(4, 0, forged, forged)))).toMatchObject({
      kind: 'inserted',
      number: 5,
    })
    expect(judge(chain.toSpliced(4, 0, forged))).toMatchObject({ kind: 'inserted', number: 5 })
    expect(judge(chain.toSpliced(5, 0, forged))).toMatchObject({ kind: 'inserted', number: 5 })
    // It fits, and the true one is the one that is there again.
    expect(judge(chain.toSpliced(4, 0, hashed))).toMatchObject({ kind: 'inserted', number: 5 })
  })

  it('name entries that change places', () => {
    const chain = chainOf(9)
    const swap = (one: number, other: number) =>
      renumbered(chain.with(one, at(chain, other)).with(other, at(chain, one)))
    expect(judge(swap(2, 3))).toMatchObject({ kind: 'reordered', number: 3 })
    expect(judge(swap(7, 8))).toMatchObject({ kind: 'reordered', number: 8 })
    expect(judge(swap(1, 6))).toMatchObject({ kind: 'reordered', number: 2 })
    const moved = renumbered([...chain.slice(0, 2), ...chain.slice(3, 7), at(chain, 2), ...chain.slice(7)])
    expect(judge(moved)).toMatchObject({ kind: 'reordered', number: 3 })
  })

  it('find any alteration of any field of any entry', () => {
    fc.assert(
      fc.property(
        fc.nat(9),
        fc.constantFrom(...(Object.keys(entryOf(1)) as (keyof AuditEntry)[])),
        fc.oneof(fc.string(), fc.integer(), fc.constant(null)),
        (place, field, value) => {
          const chain = chainOf(10)
          const { entry, hash } = at(chain, place)
          fc.pre(entry[field] !== value)
          chain[place] = { entry: { ...entry, [field]: value }, hash }
          const found = judge(chain)
          return found !== null && found.number <= place + 2
        },
      ),
      { seed: 20271121, numRuns: 300 },
    )
  })

  it('do not let a field spill into its neighbour', () => {
    const spilt = entryOf(1, '{"value":1},"before":null')
    expect(canonicalEntry(spilt)).not.toBe(canonicalEntry({ ...entryOf(1), before: null }))
    expect(JSON.parse(canonicalEntry(spilt))).toEqual(spilt)
  })
})

describe('compareHead', () => {
  const chain = chainOf(6)
  const end = { number: 6, hash: at(chain, 5).hash }

  it('takes a chain that has grown since its end was noted', () => {
    expect(compareHead(end, { number: 4, hash: at(chain, 3).hash }, at(chain, 3).hash)).toBeNull()
    expect(compareHead(end, end, end.hash)).toBeNull()
  })

  it('names an end that was cut off and a chain that was written anew', () => {
    expect(compareHead({ number: 4, hash: at(chain, 3).hash }, end, null)).toMatchObject({
      kind: 'cut-off',
      number: 5,
    })
    expect(compareHead(end, { number: 6, hash: 'a'.repeat(64) }, end.hash)).toMatchObject({
      kind: 'rewritten',
      number: 6,
    })
  })
})
