import { describe, expect, test } from 'vitest'
import { causes } from '#domain/review/cause.ts'
import { type EvidenceTable, weighCase } from '#domain/review/rank-causes.ts'
import { type MadeCase, madeCases } from './made-cases.ts'

const ofEachKind = 5
/** Weights were set on the first half. The second is only ever reported: nobody tunes on it. */
const halves = { first: madeCases(1, ofEachKind), second: madeCases(501, ofEachKind) }

interface Weighed {
  readonly made: MadeCase
  readonly table: EvidenceTable
}

const weigh = (cases: readonly MadeCase[]): readonly Weighed[] =>
  cases.map((made) => ({ made, table: weighCase(made.reviewed, made.oddity) }))

/** Cases in which the ground moved and the table gives reason to doubt it. */
const falselyReassured = (weighed: readonly Weighed[]) =>
  weighed.filter(({ made, table }) => made.truth === 'ground' && !table.treatAsReal)

const shareRight = (weighed: readonly Weighed[]) =>
  weighed.filter(({ made, table }) => table.ranked[0]?.cause === made.truth).length / weighed.length

function confusion(weighed: readonly Weighed[]): string {
  const kinds = [...new Set(weighed.map(({ made }) => made.kind))]
  const rows = kinds.map((kind) => {
    const own = weighed.filter(({ made }) => made.kind === kind)
    const counts = causes.map((cause) => own.filter(({ table }) => table.ranked[0]?.cause === cause).length)
    return (
      `${kind} (${own[0]?.made.truth})`.padEnd(34) + counts.map((count) => String(count).padStart(8)).join('')
    )
  })
  return [''.padEnd(34) + causes.map((cause) => cause.padStart(8)).join(''), ...rows].join('\n')
}

describe('made cases', () => {
  const [first, second] = [weigh(halves.first), weigh(halves.second)]

  test('are at least 64, of all causes, and the same whenever they are made', () => {
    expect(first.length + second.length).toBeGreaterThanOrEqual(64)
    expect(new Set(first.map(({ made }) => made.truth))).toEqual(new Set(causes))
    expect(madeCases(1, 1)[0]?.reviewed.subject.values).toEqual(halves.first[0]?.reviewed.subject.values)
  })

  test('the true cause is ranked first in nine of ten of those never tuned on', () => {
    const of = (weighed: readonly Weighed[]) =>
      `${Math.round(100 * shareRight(weighed))} % of ${weighed.length}`
    console.info(
      `First half, ${of(first)} right:\n${confusion(first)}\nSecond half, ${of(second)} right:\n${confusion(second)}`,
    )
    expect(shareRight(first)).toBeGreaterThan(0.9)
    expect(shareRight(second)).toBeGreaterThan(0.9)
  })

  test('where the ground moved no table gives reason to doubt it', () => {
    console.info(
      `False reassurance: first half ${falselyReassured(first).length}, second half ${falselyReassured(second).length}.`,
    )
    expect(falselyReassured(first).map(({ made }) => `${made.kind} ${made.seed}`)).toEqual([])
  })

  test('every sentence is whole and promises nothing', () => {
    for (const { table } of [...first, ...second])
      for (const sentence of [
        table.sentence,
        ...table.ranked.flatMap(({ evidence }) => evidence.map((one) => one.sentence)),
      ]) {
        expect(sentence).toMatch(/^[A-Z0-9].*\.$/)
        expect(sentence).not.toMatch(/\b(safe|OK|normal)\b|NaN|undefined|null|Infinity|\+-|−−/i)
      }
  })
})
