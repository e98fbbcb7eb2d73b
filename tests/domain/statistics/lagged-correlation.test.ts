import { describe, expect, test } from 'vitest'
import { laggedCorrelation } from '#domain/statistics/lagged-correlation.ts'
import { randomFrom } from './random-values.ts'

/** Monthly deaths from lung diseases in the UK 1974–1979, men and women: Diggle (1990), data sets mdeaths and fdeaths of R. */
const men = [
  2134, 1863, 1877, 1877, 1492, 1249, 1280, 1131, 1209, 1492, 1621, 1846, 2103, 2137, 2153, 1833, 1403, 1288,
  1186, 1133, 1053, 1347, 1545, 2066, 2020, 2750, 2283, 1479, 1189, 1160, 1113, 970, 999, 1208, 1467, 2059,
  2240, 1634, 1722, 1801, 1246, 1162, 1087, 1013, 959, 1179, 1229, 1655, 2019, 2284, 1942, 1423, 1340, 1187,
  1098, 1004, 970, 1140, 1110, 1812, 2263, 1820, 1846, 1531, 1215, 1075, 1056, 975, 940, 1081, 1294, 1341,
]
const women = [
  901, 689, 827, 677, 522, 406, 441, 393, 387, 582, 578, 666, 830, 752, 785, 664, 467, 438, 421, 412, 343,
  440, 531, 771, 767, 1141, 896, 532, 447, 420, 376, 330, 357, 445, 546, 764, 862, 660, 663, 643, 502, 392,
  411, 348, 387, 385, 411, 638, 796, 853, 737, 546, 530, 446, 431, 362, 387, 430, 425, 679, 821, 785, 727,
  612, 478, 429, 405, 379, 393, 411, 487, 574,
]

describe('correlation at a lag', () => {
  test('is what R prints for men and women (cor.test: 0.9762413)', () => {
    const found = laggedCorrelation(Float64Array.from(men), Float64Array.from(women), 3)
    expect(found?.correlation).toBeCloseTo(0.9762413, 7)
    expect(found).toMatchObject({ lag: 0, pairs: 72 })
  })

  test('finds an exact copy five steps behind, its slope and sign', () => {
    const { gaussian } = randomFrom(3)
    const leader = Float64Array.from({ length: 300 }, gaussian)
    const follower = leader.map((_, at) => (at < 5 ? Number.NaN : 40 - 2.5 * (leader[at - 5] as number)))
    const found = laggedCorrelation(follower, leader, 12)
    expect(found?.lag).toBe(5)
    expect(found?.lagInterval).toEqual([5, 5])
    expect(found?.correlation).toBeCloseTo(-1, 12)
    expect(found?.slope).toBeCloseTo(-2.5, 10)
    expect(found?.pairs).toBe(295)
  })

  test('a slow wave counts for few pairs and bounds its lag loosely, white noise for all', () => {
    const rough = randomFrom(5)
    const wave = (late: number) =>
      Float64Array.from({ length: 240 }, (_, at) => Math.sin((at - late) / 20) + 0.2 * rough.gaussian())
    const slow = laggedCorrelation(wave(4), wave(0), 8)
    expect(Math.abs((slow?.lag ?? 0) - 4)).toBeLessThanOrEqual(2)
    expect(slow?.independentPairs).toBeLessThan(20)
    expect((slow?.lagInterval[1] ?? 0) - (slow?.lagInterval[0] ?? 0)).toBeGreaterThan(4)
    const { gaussian } = randomFrom(8)
    const noise = Float64Array.from({ length: 500 }, gaussian)
    expect(laggedCorrelation(noise, noise, 0)?.independentPairs).toBeGreaterThan(470)
  })

  test('too few pairs, or one that does not vary, give none', () => {
    const some = Float64Array.from({ length: 23 }, (_, at) => at)
    expect(laggedCorrelation(some, some, 2)).toBeNull()
    expect(
      laggedCorrelation(new Float64Array(50).fill(0.1), Float64Array.from(men.slice(0, 50)), 2),
    ).toBeNull()
    expect(laggedCorrelation(new Float64Array(50).fill(Number.NaN), new Float64Array(50), 2)).toBeNull()
  })

  test('the interval of the lag holds the true one at least 19 times of 20', () => {
    let held = 0
    for (let seed = 1; seed <= 100; seed++) {
      const { gaussian } = randomFrom(seed)
      const leader = Float64Array.from({ length: 200 }, gaussian)
      for (let at = 1; at < 200; at++) leader[at] = 0.7 * (leader[at - 1] as number) + (leader[at] as number)
      const follower = leader.map((_, at) =>
        at < 3 ? Number.NaN : (leader[at - 3] as number) + 2 * gaussian(),
      )
      const found = laggedCorrelation(follower, leader, 8)
      if (found && found.lagInterval[0] <= 3 && 3 <= found.lagInterval[1]) held++
    }
    expect(held).toBeGreaterThanOrEqual(95)
  })
})
