import { expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = 'calibration,at,raw,temperatureDegC,barometerKpa,author'
const at = (minute: number) => `2027-01-31T10:0${minute}:00Z`

/** The small site with terms for temperature and air pressure in the second version of its piezometer. */
function read(...rows: readonly string[]) {
  const files = smallSite().set('zero-readings.csv', [headings, ...rows].join('\n'))
  const steps = [
    'CC-1/2,3,thermal,factor=0.01;reference=12',
    'CC-1/2,4,barometric,reference=101;maximumAgeMinutes=90',
  ]
  files.set('calibration-steps.csv', `${files.get('calibration-steps.csv')}${steps.join('\n')}\n`)
  return readSite(files)
}
const issues = (...rows: readonly string[]) => {
  const outcome = read(...rows)
  return outcome.ok ? [] : outcome.issues
}

test('zero readings are read, and written out again', () => {
  const outcome = read(`CC-1/2,${at(0)},7996,12.5,101.1,A. Reed`, `CC-1/2,${at(1)},7996.2,12.4,101.1,A. Reed`)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  expect(outcome.value.zeroReadings).toMatchObject([
    { calibration: 'CC-1/2', raw: 7996, temperatureDegC: 12.5, barometerKpa: 101.1 },
    { raw: 7996.2 },
  ])
  expect(readSite(writeSite(outcome.value))).toEqual(outcome)
})

test('a folder without the table has none, and none is written', () => {
  const outcome = readSite(smallSite())
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  expect(outcome.value.zeroReadings).toEqual([])
  expect(writeSite(outcome.value).has('zero-readings.csv')).toBe(false)
})

test('a companion that a term of the chain needs must stand in the row', () => {
  expect(issues(`CC-1/2,${at(0)},7996,12.5,101.1,A. Reed`, `CC-1/2,${at(1)},7996,,,A. Reed`)).toMatchObject([
    {
      code: 'zero-without-temperature',
      file: 'zero-readings.csv',
      line: 3,
      column: 'temperatureDegC',
      message:
        'CC-1/2 has a thermal term, so the temperature at this zero reading must be known. Fill in temperatureDegC, or take the row out.',
    },
    { code: 'zero-without-barometer', file: 'zero-readings.csv', line: 3, column: 'barometerKpa' },
  ])
})

test('a chain without such terms needs neither', () => {
  expect(issues(`CC-1/1,${at(0)},7996,,,A. Reed`)).toEqual([])
})

test('a calibration that is not there is told by line', () => {
  expect(issues(`CC-1/9,${at(0)},7996,12.5,101.1,A. Reed`)).toMatchObject([
    { file: 'zero-readings.csv', line: 2, column: 'calibration', value: 'CC-1/9' },
  ])
})

test('a reading that its chain gives no value of is told', () => {
  const files = smallSite().set('zero-readings.csv', `${headings}\nCC-1/1,${at(0)},0,,,A. Reed`)
  files.set(
    'calibration-steps.csv',
    (files.get('calibration-steps.csv') ?? '').replace(
      'CC-1/1,1,linear,factor=-0.1;offset=800;unit=kPa',
      'CC-1/1,1,period-to-frequency,\nCC-1/1,2,frequency-squared,\nCC-1/1,3,linear,factor=-0.1;offset=800;unit=kPa',
    ),
  )
  const outcome = readSite(files)
  expect(outcome.ok ? [] : outcome.issues).toMatchObject([
    { code: 'zero-not-computable', file: 'zero-readings.csv', line: 2, column: 'raw', value: '0' },
  ])
})
