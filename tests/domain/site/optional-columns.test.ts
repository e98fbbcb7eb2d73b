import { describe, expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

/** The small site with a venting column, and a chain that ends in a barometric step when asked for. */
function withVenting(ofPiezometer: string, barometricTerm = false): Map<string, string> {
  const files = smallSite()
  const [headings = '', ...rows] = (files.get('sensors.csv') ?? '').trimEnd().split('\n')
  const cells = rows.map((row, at) => `${row},${at === 0 ? ofPiezometer : ''}`)
  files.set('sensors.csv', `${[`${headings},venting`, ...cells].join('\n')}\n`)
  if (barometricTerm)
    files.set(
      'calibration-steps.csv',
      `${files.get('calibration-steps.csv')}CC-1/2,3,barometric,reference=101.3;maximumAgeMinutes=60\n`,
    )
  return files
}

const withFacts = (...lines: readonly string[]): Map<string, string> => {
  const files = smallSite()
  return files.set('site.csv', `${files.get('site.csv')}${lines.join('\n')}\n`)
}

const accepted = (files: ReadonlyMap<string, string>) => {
  const outcome = readSite(files)
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join(' '))
  return outcome.value
}

const issuesOf = (files: ReadonlyMap<string, string>) => {
  const outcome = readSite(files)
  return outcome.ok ? [] : outcome.issues
}

describe('a column that a folder may leave out', () => {
  test('has nothing in any row, and is not written', () => {
    const site = accepted(smallSite())
    expect(site.sensors.map(({ venting }) => venting)).toEqual([null, null, null, null])
    const written = writeSite(site).get('sensors.csv')
    expect(written).toContain('lateAfterMinutes')
    expect(written).not.toContain('venting')
  })

  test('is there where a cell gives it, and comes back from being written', () => {
    const site = accepted(withVenting('sealed'))
    expect(site.sensors.map(({ venting }) => venting)).toEqual(['sealed', null, null, null])
    expect(writeSite(site).get('sensors.csv')).toContain('lateAfterMinutes,venting')
    expect(readSite(writeSite(site))).toEqual({ ok: true, value: site })
  })

  test('is still held to its list', () => {
    expect(issuesOf(withVenting('vent'))).toMatchObject([
      { code: 'choice-unknown', file: 'sensors.csv', line: 2, column: 'venting', value: 'vent' },
    ])
  })
})

describe('a vented sensor', () => {
  test('with a barometric term is refused, by record, field and reason', () => {
    const issues = issuesOf(withVenting('vented', true))
    expect(issues).toMatchObject([
      {
        code: 'vented-with-barometric-term',
        file: 'sensors.csv',
        line: 2,
        column: 'venting',
        value: 'vented',
      },
    ])
    expect(issues[0]?.message).toContain('Calibration CC-1/2, step 3 (barometric)')
    expect(issues[0]?.message).toContain('corrected twice')
  })

  test('without one, and a sealed one with it, are read', () => {
    expect(readSite(withVenting('vented')).ok).toBe(true)
    expect(readSite(withVenting('sealed', true)).ok).toBe(true)
  })
})

test('a calibration with a missing coefficient is refused with its line', () => {
  const files = smallSite()
  files.set(
    'calibration-steps.csv',
    `${files.get('calibration-steps.csv')}CC-1/2,3,barometric,maximumAgeMinutes=60\n`,
  )
  expect(issuesOf(files)).toMatchObject([
    { code: 'parameter-missing', file: 'calibration-steps.csv', line: 5, column: 'parameters' },
  ])
})

test('a chain whose units do not join is refused with its line', () => {
  const files = smallSite()
  files.set('calibration-steps.csv', `${files.get('calibration-steps.csv')}CC-1/2,3,shunt,ohms=250\n`)
  expect(issuesOf(files)).toContainEqual(
    expect.objectContaining({
      code: 'units-do-not-join',
      file: 'calibration-steps.csv',
      line: 5,
      expected: 'V',
    }),
  )
})

describe('what a site says of its water', () => {
  const water = (...lines: readonly string[]) => {
    return siteWater(accepted(withFacts(...lines)).facts)
  }

  test('nothing: the customary unit weight, and that it is that', () => {
    expect(water()).toEqual({
      unitWeightKnPerM3: 9.81,
      sentence: 'Unit weight of water: the customary 9.81 kN/m³; the site states no other.',
    })
  })

  test('a unit weight', () => {
    expect(water('waterUnitWeightKnPerM3,10.05').unitWeightKnPerM3).toBe(10.05)
  })

  test('temperature, salinity and latitude, with the arithmetic', () => {
    const sea = water('waterTemperatureDegC,5', 'waterSalinity,35', 'latitudeDegrees,45')
    // WD-20 and WD-18: 1027.67547 kg/m³, 9.80619776937 m/s².
    expect(sea.unitWeightKnPerM3).toBeCloseTo((1027.67547 * 9.80619776937) / 1000, 7)
    expect(sea.sentence).toContain('salinity 35')
    expect(sea.sentence).toContain('latitude 45°')
    // HY-01: fresh water of 20 °C is 9.78907 kN/m³ by standard gravity.
    expect(water('waterTemperatureDegC,20').unitWeightKnPerM3).toBeCloseTo(9.78907, 4)
  })

  test('comes back from being written', () => {
    const site = accepted(withFacts('waterTemperatureDegC,12', 'waterSalinity,35'))
    expect(site.facts).toMatchObject({ waterTemperatureDegC: 12, waterSalinity: 35 })
    expect(readSite(writeSite(site))).toEqual({ ok: true, value: site })
  })

  test.each([
    [['waterUnitWeightKnPerM3,9.8', 'waterTemperatureDegC,12'], 'water-stated-twice', 12],
    [['waterSalinity,35'], 'water-temperature-missing', 12],
    [['latitudeDegrees,48'], 'water-temperature-missing', 12],
    [['waterTemperatureDegC,60', 'waterSalinity,35'], 'water-temperature-unknown', 12],
    [['waterTemperatureDegC,-1'], 'water-temperature-unknown', 12],
    [['waterUnitWeightKnPerM3,981'], 'out-of-range', 12],
  ])('that does not fit together is refused: %s', (lines, code, line) => {
    expect(issuesOf(withFacts(...lines))).toMatchObject([{ code, file: 'site.csv', line }])
  })
})
