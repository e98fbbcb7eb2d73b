import { describe, expect, test } from 'vitest'
import type { PlacedInstrument, Series, SiteDocument } from '#contract/site-document.ts'
import { columnsOf } from '../../../../web/engine/columns.ts'
import {
  askedSeries,
  type ProfileQuestion,
  profileFromSite,
  profileQuestion,
} from '../../../../web/views/depth-profile/profile-from-site.ts'
import { isNotCurrent } from '../../../../web/views/depth-profile/profile-props.ts'
import { profileRemarks, profileTable } from '../../../../web/views/depth-profile/profile-table.ts'

const hourMs = 3_600_000
const site = (
  kind: string,
  fixedEnd: string | null,
  measure: string,
  depths: readonly number[],
  gauge: number | null,
) => {
  const points = depths.map((depthMetres, place) => ({
    id: `X-${place + 1}`,
    depthMetres,
    levelMetres: 4 - depthMetres,
    gaugeLengthMetres: gauge,
  }))
  const instrument = {
    id: 'X',
    kind,
    location: 'X',
    fixedEnd,
    positiveMeans: 'towards the dig',
    points: points.map((point) => point.id),
  } as unknown as PlacedInstrument
  const series = points.map((point, place) => ({
    series: place + 1,
    id: `${point.id}/${measure}`,
    point: point.id,
    measure,
    unit: measure === 'pore-pressure' ? 'kPa' : 'mm',
    decimals: 1,
    lateAfterMinutes: 180,
  })) as unknown as Series[]
  const document = {
    facts: { verticalDatum: 'site datum', timeZone: 'UTC', groundLevelMetres: 4, levelNames: ['One', 'Two'] },
    locations: [
      {
        id: 'X',
        eastingMetres: 0,
        northingMetres: 0,
        collarLevelMetres: 4,
        azimuthDegrees: 0,
        dipDegrees: 90,
      },
    ],
    strata: [],
    stages: [],
    predictions: [],
    triggerLevels: [],
    verdicts: [],
    verdictWithdrawals: [],
    points,
    series,
  } as unknown as SiteDocument
  return { document, instrument }
}

function drawn(
  { document, instrument }: ReturnType<typeof site>,
  values: readonly number[],
  ageHours: number | readonly number[] = 1,
) {
  const question = profileQuestion(document, instrument) as ProfileQuestion
  const columns = columnsOf(values.length, {
    which: new Float64Array(values.length),
    quality: new Float64Array(values.length),
    flags: new Float64Array(values.length),
    series: Float64Array.from(values, (_, place) => place + 1),
    value: Float64Array.from(values),
    last_at_ms: Float64Array.from(
      values,
      (_, place) => (100 - (typeof ageHours === 'number' ? ageHours : (ageHours[place] ?? 1))) * hourMs,
    ),
  })
  return profileFromSite({
    document,
    instrument,
    question,
    moments: [{ heading: 'At the clock', atEpochMs: 100 * hourMs }],
    columns,
    states: new Map(),
    selectedPoint: null,
    remarks: [],
  })
}

const values = (props: ReturnType<typeof drawn>) => props.curves[0]?.readings.map((reading) => reading.value)

describe('tips', () => {
  const tips = site('piezometer', null, 'pore-pressure', [6, 12], null)

  test('pressure at rest hangs from the level to which the highest tip rises: −2 + 19.62 / 9.81 = 0 m', () => {
    expect(drawn(tips, [19.62, 60]).water?.levelMetres).toBeCloseTo(0, 9)
    expect(drawn(tips, [19.62, 60]).water?.sentence).toContain('X-1')
  })

  test('a highest tip without pressure cannot name the water level; the next can, none gives none', () => {
    expect(drawn(tips, [-1, 60]).water?.sentence).toContain('X-2')
    expect(drawn(tips, [-1, Number.NaN]).water).toBeNull()
  })

  test('older than its limit a reading is late, whatever its value', () => {
    expect(drawn(tips, [20, 60], 4).curves[0]?.readings.map((one) => [one.late, one.standing])).toEqual([
      [true, 'late'],
      [true, 'late'],
    ])
  })
})

describe('stresses at the tips', () => {
  const strung = (strata: readonly object[], features: readonly object[] = []) => {
    const { document, instrument } = site('piezometer', null, 'pore-pressure', [6, 12], null)
    return {
      instrument,
      document: {
        ...document,
        strata: strata.map((layer) => ({ location: 'X', stratum: 'Clay', ...layer })),
        works: { type: 'FeatureCollection', features },
        locations: document.locations.map((one) => ({ ...one, longitude: 1, latitude: 1 })),
      } as unknown as SiteDocument,
    }
  }
  const upper = { topLevelMetres: 4, baseLevelMetres: 0, unitWeightKnPerM3: 18 }
  const lower = { topLevelMetres: 0, baseLevelMetres: -10, unitWeightKnPerM3: 20 }
  const dig = (fromEpochMs: number) => ({
    geometry: {
      type: 'Polygon',
      coordinates: [
        [
          [0, 0],
          [2, 0],
          [2, 2],
          [0, 2],
          [0, 0],
        ],
      ],
    },
    properties: { kind: 'excavation', fromEpochMs },
  })

  test('total from the layers, 4·18 + 2·20 = 112 kPa at −2 m; effective is that less the pressure, also in the table', () => {
    const props = drawn(strung([upper, lower]), [20, 70])
    expect(props.stresses?.total.get('X-1')).toBeCloseTo(112, 9)
    expect(props.stresses?.effective[0]?.get('X-1')).toBeCloseTo(92, 9)
    expect(props.stresses?.effective[0]?.get('X-2')).toBeCloseTo(162, 9)
    const { headings, rows } = profileTable(props)
    expect(rows.every((row) => row.length === headings.length)).toBe(true)
    expect(rows[0]?.slice(-2)).toEqual(['112.0', '92.0'])
  })

  test('a gap in the layers, or a tip below them, is said and not guessed', () => {
    const gap = drawn(strung([upper, { ...lower, topLevelMetres: -1 }]), [20, 70])
    expect(gap.stresses ?? null).toBeNull()
    expect(gap.remarks.at(-1)).toContain('Effective stress is not told')
    const short = drawn(strung([upper, { ...lower, baseLevelMetres: -5 }]), [20, 70])
    expect(short.stresses?.effective[0]?.has('X-2')).toBe(false)
    expect(short.remarks.join(' ')).toContain('1 of 2 tips lie below the layers recorded')
  })

  test('once the ground above is dug neither is told', () => {
    expect(drawn(strung([upper, lower], [dig(200 * hourMs)]), [20, 70]).stresses).not.toBeNull()
    const dug = drawn(strung([upper, lower], [dig(50 * hourMs)]), [20, 70])
    expect(dug.stresses).toBeNull()
    expect(dug.remarks.at(-1)).toContain('ground above X was dug')
  })
})

test('published strains stand between their anchors, late ones as such', () => {
  const { document, instrument } = site('extensometer', 'head', 'displacement', [3, 9], null)
  const strains = document.series.map((one) => ({
    ...one,
    series: one.series + 2,
    id: `${one.point}/strain`,
    measure: 'strain',
    unit: 'mm/m',
  }))
  const both = { ...document, series: [...document.series, ...strains] } as unknown as SiteDocument
  expect(askedSeries(profileQuestion(both, instrument) as ProfileQuestion).series).toEqual([1, 2, 3, 4])
  const props = drawn({ document: both, instrument }, [1, 4, 0.333, -0.5], [1, 1, 1, 30])
  expect(values(props)).toEqual([1, 4])
  expect(
    props.strains?.map((one) => [one.above, one.topLevelMetres, one.baseLevelMetres, one.readings[0]?.value]),
  ).toEqual([
    ['head', 4, 1, 0.333],
    ['X-1', 1, -5, -0.5],
  ])
  expect(profileTable(props).rows.map((row) => row.at(-1))).toEqual(['0.333', '−0.500, late'])
})

describe('anchors', () => {
  test('from the head they are as read', () => {
    const props = drawn(site('extensometer', 'head', 'displacement', [3, 9], null), [1, 4])
    expect(values(props)).toEqual([1, 4])
    expect(props.still?.levelMetres).toBe(4)
  })

  test('a late deepest anchor makes all that is told from it not current', () => {
    const props = drawn(site('extensometer', 'deepest-anchor', 'displacement', [3, 9], null), [1, 4], [1, 30])
    expect(props.curves[0]?.readings.map((one) => [one.standing, one.lateThrough])).toEqual([
      ['late', 'X-2'],
      ['late', null],
    ])
  })

  test('from the deepest anchor each is less what that one moved', () => {
    const props = drawn(site('extensometer', 'deepest-anchor', 'displacement', [3, 9], null), [1, 4])
    expect(values(props)).toEqual([-3, 0])
    expect(props.still?.sentence).toContain('X-2')
  })
})

describe('what is published as a profile', () => {
  test('is drawn as it is: settlements of anchors at their depths', () => {
    const props = drawn(site('extensometer', 'surveyed-head', 'settlement', [3, 9], null), [8, 5])
    expect(values(props)).toEqual([8, 5])
    expect(props.valueName).toBe('Settlement')
    expect(props.still).toBeNull()
    expect(props.remarks.join(' ')).toContain('last survey')
    expect(props.remarks.at(-1)).toContain('Strain between anchors is not told')
  })

  test('deflections of a traverse from a still toe at the tops of their intervals', () => {
    const props = drawn(site('traversed-inclinometer', 'toe', 'deflection', [0.25, 0.75], 0.5), [2, 1])
    expect(values(props)).toEqual([2, 1])
    expect(props.points.map((point) => point.depthMetres)).toEqual([0, 0.5])
    expect(props.still?.sentence).toContain('from the toe')
  })

  test('the greatest deflection of a traverse stands at no depth', () => {
    const { document, instrument } = site('traversed-inclinometer', 'toe', 'deflection', [0.25, 0.75], 0.5)
    const [one] = document.series
    const whole = { ...one, series: 9, id: 'X/deflection', point: 'X' } as Series
    const question = profileQuestion(
      { ...document, series: [whole, ...document.series] },
      { ...instrument, points: ['X', ...instrument.points] },
    )
    expect(question?.series.map(({ series }) => series)).toEqual([1, 2])
  })

  test('without a zero survey a traverse shows its deviations', () => {
    const { document, instrument } = site('traversed-inclinometer', 'toe', 'deviation-a', [0.25], 0.5)
    expect(profileQuestion(document, instrument)?.measure).toBe('deviation-a')
  })
})

describe('segments', () => {
  const casing = (fixedEnd: string) => site('in-place-inclinometer', fixedEnd, 'inclination-a', [1, 3, 5], 2)

  test('from the toe each stands at its top and carries all below', () => {
    const props = drawn(casing('toe'), [1, 2, 4])
    expect(values(props)).toEqual([7, 6, 4])
    expect(props.points.map((point) => point.depthMetres)).toEqual([0, 2, 4])
    expect(props.still?.levelMetres).toBe(-2)
  })

  test('from the head each stands at its base and moves the other way', () => {
    const props = drawn(casing('head'), [1, 2, 4])
    expect(values(props)).toEqual([-1, -3, -7])
    expect(props.points.map((point) => point.depthMetres)).toEqual([2, 4, 6])
  })

  test('a late segment marks itself and all that is added up through it, up from the toe or down from the head', () => {
    const told = (fixedEnd: string) => {
      const props = drawn(casing(fixedEnd), [1, 2, 4], [1, 30, 1])
      const said = profileRemarks(props).find((sentence) => sentence.includes('through it'))
      return {
        said,
        marked: props.curves[0]?.readings.map((one) => [isNotCurrent(one), one.lateThrough ?? null]),
      }
    }
    expect(told('toe').marked).toEqual([
      [true, 'X-2'],
      [true, null],
      [false, null],
    ])
    expect(told('head').marked).toEqual([
      [false, null],
      [true, null],
      [true, 'X-2'],
    ])
    expect(told('toe').said).toContain('X-2 has no current data, read 30 h before, and 1 of 3 values')
    expect(told('toe').said).toContain('From 0.00 to 2.00 m depth')
    expect(told('head').said).toContain('From 4.00 to 6.00 m depth')
  })

  test('beyond a dead segment nothing is known, and that is said', () => {
    const props = drawn(casing('toe'), [1, Number.NaN, 4])
    expect(values(props)).toEqual([null, null, 4])
    expect(props.remarks.at(-1)).toContain('beyond it the deflection is not known')
  })
})

describe('a casing turned to the east and north', () => {
  const { document, instrument } = site('in-place-inclinometer', 'toe', 'inclination-a', [1, 3], 2)
  const both = {
    ...document,
    series: [
      ...document.series,
      ...document.series.map((one) => ({
        ...one,
        series: one.series + 2,
        id: `${one.point}/inclination-b`,
        measure: 'inclination-b',
      })),
    ],
  } as unknown as SiteDocument
  const turned = (
    way: 'east' | 'north',
    read: readonly number[],
    positiveB: string | null = null,
    placed: SiteDocument = both,
  ) => {
    const casing = { ...instrument, axisBearingDegrees: 90, positiveB } as PlacedInstrument
    const question = profileQuestion(placed, casing, way) as ProfileQuestion
    const columns = columnsOf(4, {
      which: new Float64Array(4),
      quality: new Float64Array(4),
      flags: new Float64Array(4),
      series: Float64Array.of(1, 2, 3, 4),
      value: Float64Array.from(read),
      last_at_ms: new Float64Array(4).fill(99 * hourMs),
    })
    return profileFromSite({
      document: placed,
      instrument: casing,
      question,
      moments: [{ heading: 'At the clock', atEpochMs: 100 * hourMs }],
      columns,
      states: new Map(),
      selectedPoint: null,
      remarks: [],
    })
  }

  test('A looks east: eastwards it is A, northwards B the other way round, or as the instrument says', () => {
    expect(values(turned('east', [1, 2, 5, 7]))).toEqual([3, 2])
    expect(values(turned('north', [1, 2, 5, 7]))).toEqual([-12, -7])
    expect(values(turned('north', [1, 2, 5, 7], 'counter-clockwise'))).toEqual([12, 7])
    expect(turned('north', [1, 2, 5, 7]).valueName).toBe('Displacement north')
    expect(turned('north', [1, 2, 5, 7]).points).toHaveLength(2)
  })

  test('grooves that turn with depth turn each segment by their own bearing', () => {
    const points = both.points.map((point, at) => ({ ...point, grooveTurnDegrees: at === 0 ? 0 : 90 }))
    // The lower segment's A looks south, its B west.
    expect(values(turned('east', [1, 2, 5, 7], null, { ...both, points }))).toEqual([-6, -7])
    expect(values(turned('north', [1, 2, 5, 7], null, { ...both, points }))).toEqual([-7, -2])
  })

  test('a segment without either axis is not known, nor is what stands on it', () => {
    expect(values(turned('east', [1, 2, 5, Number.NaN]))).toEqual([null, null])
  })

  test('without B, or without a bearing, there is no such profile', () => {
    const casing = { ...instrument, axisBearingDegrees: 90 } as PlacedInstrument
    expect(profileQuestion(document, casing, 'east')).toBeNull()
    expect(profileQuestion(both, { ...casing, axisBearingDegrees: null }, 'north')).toBeNull()
  })
})

test('what has no depth has no profile', () => {
  const { document, instrument } = site('settlement-point', null, 'settlement', [0], null)
  expect(profileQuestion(document, instrument)).toBeNull()
})

describe('what the design expects', () => {
  const string = site('in-place-inclinometer', 'toe', 'inclination-a', [1, 3], 2)
  const stage = {
    id: 'dig',
    name: 'First dig',
    startsAt: 0,
    endsAt: 200 * hourMs,
    formationLevelMetres: null,
  }
  const expected = (depthMetres: number, low: number, high: number) => ({
    id: `PD-${depthMetres}`,
    instrument: 'X',
    measure: 'deflection',
    stage: 'dig',
    depthMetres,
    low,
    high,
    source: 'Design report',
    author: 'Designer',
    validFrom: 0,
  })
  const withDesign = (predictions: readonly ReturnType<typeof expected>[]) => ({
    ...string,
    document: { ...string.document, stages: [stage], predictions } as unknown as SiteDocument,
  })

  test('stands by depth for the stage of the clock, and a value beyond it is told in words', () => {
    const props = drawn(withDesign([expected(0, 2, 6), expected(4, 0, 2)]), [3, 1])
    expect(values(props)).toEqual([4, 1])
    expect(props.expected?.atPoints.get('X-2')).toEqual({ low: 1, high: 4 })
    expect(props.remarks.join(' ')).not.toContain('lies')
    const beyond = drawn(withDesign([expected(0, 2, 6), expected(4, 0, 2)]), [6, 1])
    expect(beyond.remarks.join(' ')).toContain(
      'X-1 at 7.0 mm lies above what is expected there, 2.0 mm to 6.0 mm',
    )
  })

  test('one depth makes no strip', () => {
    expect(drawn(withDesign([expected(2, 2, 6)]), [3, 1]).expected).toBeNull()
  })
})
