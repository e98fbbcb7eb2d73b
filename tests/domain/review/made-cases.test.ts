import { describe, expect, test } from 'vitest'
import { causes } from '#domain/review/cause.ts'
import { confusion, falselyReassured, halvesOfSeries, shareRight, weighMade } from './confusion.ts'
import { madeCases } from './made-cases.ts'

describe('made cases', () => {
  const [first, second] = [weighMade(halvesOfSeries.first), weighMade(halvesOfSeries.second)]

  test('are at least 64, of all causes, and the same whenever they are made', () => {
    expect(first.length + second.length).toBeGreaterThanOrEqual(64)
    expect(new Set(first.map(({ made }) => made.truth))).toEqual(new Set(causes))
    expect(madeCases(1, 1)[0]?.reviewed.subject.values).toEqual(
      halvesOfSeries.first[0]?.reviewed.subject.values,
    )
  })

  test('the true cause is ranked first in nine of ten of those never tuned on', () => {
    console.info(`${confusion('First half', first)}\n${confusion('Second half', second)}`)
    expect(shareRight(first)).toBeGreaterThan(0.9)
    expect(shareRight(second)).toBeGreaterThan(0.9)
  })

  test('where the ground moved no table gives reason to doubt it', () => {
    expect(falselyReassured(first)).toEqual([])
    expect(falselyReassured(second)).toEqual([])
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
