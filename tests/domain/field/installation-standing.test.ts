import { expect, test } from 'vitest'
import type { FieldBody, InstallationBody } from '#domain/field/field-bodies.ts'
import { installationRows } from '#domain/field/installation-rows.ts'
import { installationStanding } from '#domain/field/installation-standing.ts'
import { tipOf } from '#domain/field/installation-tips.ts'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from '../../contract/small-site.ts'
import { recordedPiezometer } from './recorded-piezometer.ts'

const small = smallSite()
const site = {
  ...small,
  locations: small.locations.map((place) => ({
    ...place,
    eastingMetres: 500_000,
    northingMetres: 310_000,
  })),
}
const entry = (body: InstallationBody, author = 'Field engineer') => ({
  id: '00000000-0000-4000-8000-000000000001',
  author,
  body,
})
const check = (
  author: string,
  agreed = true,
  of = entry(recordedPiezometer).id,
): { author: string; body: FieldBody } => ({
  author,
  body: {
    kind: 'second-check',
    instrument: 'PZ-07',
    entry: of,
    agreed,
    found: agreed ? '' : 'tape read wrongly',
  },
})
const codes = (body: InstallationBody, checks = [check('Second engineer')]) =>
  installationStanding(entry(body), checks, site).missing.map(({ code }) => code)
const point = recordedPiezometer.points[0] as InstallationBody['points'][number]
const sensor = point.sensors[0] as (typeof point.sensors)[number]
const withSensor = (change: Partial<typeof sensor>): InstallationBody => ({
  ...recordedPiezometer,
  points: [{ ...point, sensors: [{ ...sensor, ...change }] }],
})

test('complete and checked by another person: commissioned', () => {
  expect(installationStanding(entry(recordedPiezometer), [check('Second engineer')], site)).toEqual({
    status: 'commissioned',
    missing: [],
    checkedBy: 'Second engineer',
  })
})

test('the recorder’s own check, a check of an earlier record, none, or an objection leave it recorded', () => {
  expect(codes(recordedPiezometer, [])).toEqual(['check-missing'])
  expect(codes(recordedPiezometer, [check('field  Engineer')])).toEqual(['check-missing'])
  expect(codes(recordedPiezometer, [check('Second engineer', true, 'another')])).toEqual(['check-missing'])
  expect(codes(recordedPiezometer, [check('Second engineer'), check('Third engineer', false)])).toEqual([
    'check-not-agreed',
  ])
})

test('where there are accounts the second person’s check comes from an account of their own', () => {
  const standing = (recorder: string | null, checker: string | null) =>
    installationStanding(
      { ...entry(recordedPiezometer), sender: recorder },
      [{ ...check('Second engineer'), sender: checker }],
      site,
    )
  expect(standing('Field engineer', 'Second engineer').status).toBe('commissioned')
  expect(standing(null, null).status).toBe('commissioned')
  const same = standing('Field engineer', 'Field engineer')
  expect(same.status).toBe('recorded')
  expect(same.missing[0]?.message).toContain('record and check were both sent by Field engineer')
})

test('certificate, zero set and serial: each missing or of another sensor is told', () => {
  expect(codes(withSensor({ certificate: null }))).toEqual(['certificate-missing'])
  expect(codes(withSensor({ zeroReadings: sensor.zeroReadings.slice(0, 1) }))).toEqual(['zero-missing'])
  expect(codes(withSensor({ serial: 'P27191' }))).toEqual(['certificate-of-another'])
  expect(
    codes(withSensor({ zeroReadings: sensor.zeroReadings.map((one) => ({ ...one, barometerKpa: null })) })),
  ).toEqual(['zero-without-conditions'])
})

test('a collar 3 km off, a depth below the hole, a tip outside its intake zone: told', () => {
  expect(codes({ ...recordedPiezometer, eastingMetres: 503_000 })).toEqual(['far-off'])
  expect(codes({ ...recordedPiezometer, lengthMetres: 12 })).toContain('below-the-hole')
  expect(codes({ ...recordedPiezometer, dipDegrees: 90 })).toEqual(['tip-outside-intake'])
  expect(codes({ ...recordedPiezometer, collarLevelMetres: null })).toContain('survey-missing')
  expect(codes({ ...recordedPiezometer, points: [{ ...point, stratum: 'Chalk' }] })).toEqual([
    'stratum-unknown',
  ])
})

test('tip by dip: 20 m at 60° lies 17.32 m down and 10 m out (trigonometry)', () => {
  const tip = tipOf(recordedPiezometer, { depthMetres: 20 })
  expect(tip?.levelMetres).toBeCloseTo(4.6 - 17.320508, 6)
  expect(tip?.eastingMetres).toBeCloseTo(500_060, 9)
  expect(tip?.northingMetres).toBeCloseTo(309_990, 9)
})

test('its records make a site that reads as a folder again, with the zero readings under its calibration', () => {
  const rows = installationRows(recordedPiezometer, {
    author: 'Field engineer',
    checkedBy: 'Second engineer',
  })
  const grown = { ...site }
  for (const name of Object.keys(rows) as (keyof typeof rows)[])
    Object.assign(grown, { [name]: [...site[name], ...rows[name]] })
  const read = readSite(writeSite(grown))
  expect(read.ok ? [] : read.issues).toEqual([])
  if (!read.ok) return
  expect(read.value.zeroReadings.filter(({ calibration }) => calibration.includes('PZ-07'))).toHaveLength(3)
  expect(read.value.sensors.at(-1)).toMatchObject({ id: 'PZ-07A/pore-pressure', decimals: 2 })
})
