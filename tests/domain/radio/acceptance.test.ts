import fc from 'fast-check'
import { expect, test } from 'vitest'
import { judgeCoverageTest } from '#domain/radio/acceptance.ts'

const row = (spreadingFactor: number, received: number, sent: number) => ({ spreadingFactor, received, sent })

test('15 of 20 is accepted and certain of half; 5 of 10 is accepted with cautions', () => {
  const good = judgeCoverageTest([row(12, 15, 20)])
  expect(good).toMatchObject({ verdict: 'accepted', certainOfHalf: true, cautions: [] })
  const weak = judgeCoverageTest([row(12, 5, 10)])
  expect(weak).toMatchObject({ verdict: 'accepted', certainOfHalf: false })
  expect(weak.cautions).toEqual([
    '5 of 10 packets at spreading factor 12: the link may truly deliver anything from 24 % to 76 % (95 % interval). So near to 50 % that not even 2000 more packets would settle on which side the link lies.',
    'Only 10 packets decide this. Send 20 or more at one spreading factor.',
  ])
  expect(weak.ruleSource).toBe('common practice, no published source')
})

test('any one spreading factor is enough, and the caution says how easily a poor link passes six of them', () => {
  const rows = [7, 8, 9, 10, 11, 12].map((factor) => row(factor, factor === 11 ? 5 : 2, 10))
  const judged = judgeCoverageTest(rows)
  expect(judged.verdict).toBe('accepted')
  expect(judged.best?.spreadingFactor).toBe(11)
  expect(judged.chancePassingAt35Percent).toBeCloseTo(0.82, 2)
  expect(judged.cautions.at(-1)).toMatch(/6 spreading factors were tried.*82 %.*spreading factor 11/)
})

test('less than half everywhere is not accepted; nothing sent is not a verdict', () => {
  expect(judgeCoverageTest([row(7, 4, 9), row(12, 9, 20)]).verdict).toBe('not-accepted')
  const nothing = judgeCoverageTest([row(7, 0, 0)])
  expect(nothing).toMatchObject({ verdict: 'nothing-sent', best: null, shares: [], certainOfHalf: false })
  expect(nothing.cautions).toHaveLength(1)
  expect(judgeCoverageTest([]).verdict).toBe('nothing-sent')
})

test('more packets received than sent are no share of any: nothing is judged, and it is said which', () => {
  const judged = judgeCoverageTest([row(9, 12, 10), row(10, 9, 10)])
  expect(judged).toMatchObject({
    verdict: 'impossible',
    shares: [],
    best: null,
    settling: null,
    certainOfHalf: false,
    chancePassingAt35Percent: 0,
    cautions: [
      '12 packets cannot have arrived of 10 sent at spreading factor 9: the test says nothing until one of the two is corrected.',
    ],
  })
  for (const wrong of [row(9, -1, 4), row(9, 1, 0), row(9, Number.NaN, 4)])
    expect(judgeCoverageTest([wrong, row(9, 9, 10)]).verdict).toBe('impossible')
})

test('the order of rows and their splitting do not matter; more packets received never lose acceptance', () => {
  const count = fc
    .integer({ min: 7, max: 12 })
    .chain((factor) =>
      fc
        .integer({ min: 1, max: 40 })
        .chain((sent) => fc.integer({ min: 0, max: sent }).map((received) => row(factor, received, sent))),
    )
  fc.assert(
    fc.property(fc.array(count, { minLength: 1, maxLength: 8 }), (rows) => {
      const judged = judgeCoverageTest(rows)
      expect(judgeCoverageTest(rows.toReversed())).toEqual(judged)
      const split = rows.flatMap(({ spreadingFactor, received, sent }) => [
        row(spreadingFactor, received, received),
        row(spreadingFactor, 0, sent - received),
      ])
      expect(judgeCoverageTest(split)).toEqual(judged)
      expect(judged.verdict === 'accepted').toBe(
        judged.shares.some(({ received, sent }) => 2 * received >= sent),
      )
      const best = judged.best
      if (best && judged.verdict === 'accepted' && best.received < best.sent)
        expect(judgeCoverageTest([...judged.shares, row(best.spreadingFactor, 1, 1)]).verdict).toBe(
          'accepted',
        )
    }),
    { seed: 12 },
  )
})
