import { describe, expect, test } from 'vitest'
import { findOddities } from '#domain/review/oddity.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import { confusion, falselyReassured, halvesOfReadings, shareRight, weighMade } from './confusion.ts'
import type { MadeReading } from './made-single-readings.ts'
import { makeWorld } from './made-world.ts'

describe('single readings', () => {
  const [first, second] = [weighMade(halvesOfReadings.first), weighMade(halvesOfReadings.second)]

  test('the true cause is ranked first in nine of ten of those never tuned on', () => {
    console.info(`${confusion('First half', first)}\n${confusion('Second half', second)}`)
    expect(first.length + second.length).toBeGreaterThanOrEqual(120)
    expect(shareRight(first)).toBeGreaterThan(0.9)
    expect(shareRight(second)).toBeGreaterThan(0.9)
  })

  test('what the ground did is never doubted', () => {
    expect(falselyReassured([...first, ...second])).toEqual([])
  })

  test('every sentence is whole and promises nothing, and the reading is named with its instant', () => {
    const cases = [...halvesOfReadings.first, ...halvesOfReadings.second]
    for (const [i, { table }] of [...first, ...second].entries()) {
      const [odd] = findOddities((cases[i] as MadeReading).reviewed)
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
