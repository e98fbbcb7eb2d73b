import { describe, expect, test } from 'vitest'
import { causes } from '#domain/review/cause.ts'
import { findOddities } from '#domain/review/oddity.ts'
import { type EvidenceTable, weighCase } from '#domain/review/rank-causes.ts'
import { type MadeReading, madeReadings } from './made-single-readings.ts'
import { makeWorld } from './made-world.ts'

const ofEachKind = 6
/** Weights were set on the first half. The second is only ever reported: nobody tunes on it. */
const halves = { first: madeReadings(20_001, ofEachKind), second: madeReadings(20_501, ofEachKind) }

interface Weighed {
  readonly made: MadeReading
  readonly table: EvidenceTable
}

const weigh = (cases: readonly MadeReading[]): readonly Weighed[] =>
  cases.map((made) => ({ made, table: weighCase(made.reviewed, 'reading') }))
const shareRight = (weighed: readonly Weighed[]) =>
  weighed.filter(({ made, table }) => table.ranked[0]?.cause === made.truth).length / weighed.length

function confusion(weighed: readonly Weighed[]): string {
  const kinds = [...new Set(weighed.map(({ made }) => made.kind))]
  const rows = kinds.map((kind) => {
    const own = weighed.filter(({ made }) => made.kind === kind)
    const counts = causes.map((cause) => own.filter(({ table }) => table.ranked[0]?.cause === cause).length)
    return (
      `${kind} (${own[0]?.made.truth})`.padEnd(42) + counts.map((count) => String(count).padStart(8)).join('')
    )
  })
  return [''.padEnd(42) + causes.map((cause) => cause.padStart(8)).join(''), ...rows].join('\n')
}

describe('single readings', () => {
  const [first, second] = [weigh(halves.first), weigh(halves.second)]

  test('the true cause is ranked first in nine of ten of those never tuned on', () => {
    const of = (weighed: readonly Weighed[]) =>
      `${Math.round(100 * shareRight(weighed))} % of ${weighed.length}`
    console.info(
      `Single readings. First half, ${of(first)} right:\n${confusion(first)}\nSecond half, ${of(second)} right:\n${confusion(second)}`,
    )
    expect(first.length + second.length).toBeGreaterThanOrEqual(120)
    expect(shareRight(first)).toBeGreaterThan(0.9)
    expect(shareRight(second)).toBeGreaterThan(0.9)
  })

  test('what the ground did is never doubted', () => {
    const doubted = [...first, ...second].filter(
      ({ made, table }) => made.truth === 'ground' && !table.treatAsReal,
    )
    expect(doubted.map(({ made }) => `${made.kind} ${made.seed}`)).toEqual([])
  })

  test('every sentence is whole and promises nothing, and the reading is named with its instant', () => {
    for (const { made, table } of [...first, ...second]) {
      const [odd] = findOddities(made.reviewed)
      expect(odd?.oddity).toBe('reading')
      for (const sentence of [
        odd?.sentence,
        table.sentence,
        ...table.ranked.flatMap(({ evidence }) => evidence.map((one) => one.sentence)),
      ]) {
        expect(sentence).toMatch(/^[A-Za-z0-9].*\.$/)
        expect(sentence).not.toMatch(/\b(safe|OK|normal)\b|NaN|undefined|null|Infinity|\+-|−−/i)
      }
    }
  })
})

test('the first reading after a step is odd although the curve through both sides goes half way, and is told as a change', () => {
  const world = makeWorld(77, 120)
  const size = 6
  const made = world.trace({
    measure: 'settlement',
    course: (h) => (h < 60 * 24 ? 0 : size),
    everyHours: 168,
  })
  // A mark that is levelled to 0.8 mm.
  const levelled = { ...made, repeatability: 0.8, standardUncertainty: 0.8 }
  const first = levelled.values.findIndex((value) => value > 3)
  const askedAt = (place: number) =>
    world.caseOf(levelled, {
      untilEpochMs: (levelled.atEpochMs.at(-1) ?? 0) + 1,
      reading: { atEpochMs: levelled.atEpochMs[place] as number, flags: 0, byHand: true, raw: null },
    })
  const [odd] = findOddities(askedAt(first))
  expect(odd?.sentence).toMatch(/stands \+[56]\.\d\d mm off those before it, [67]\.\d times the scatter/)
  const { ranked, treatAsReal } = weighCase(askedAt(first), 'reading')
  expect(treatAsReal).toBe(true)
  expect(ranked[0]?.evidence.map(({ sentence }) => sentence).join()).toContain('the next stay with it')
  expect(findOddities(askedAt(first - 1))[0]?.sentence).toMatch(/ [0-3]\.\d times the scatter/)
})
