import { expect, test } from 'vitest'
import type { EfficiencyEstimate } from '#domain/ground/efficiency-estimate.ts'
import {
  againstShareInForce,
  draftRefusal,
  proposeAirShare,
  withAirShare,
} from '../../../web/panels/air-share-draft.ts'
import { airTermOver, barometerFor, barometerOver, barometerSentences } from '../../../web/panels/air-term.ts'
import { fieldsOfVersion } from '../../../web/panels/calibration-fields.ts'
import { lastThirtyDays, readInterval } from '../../../web/panels/efficiency-interval.ts'
import { disturbances } from '../../../web/panels/efficiency-sentences.ts'
import { point, presentEpochMs, series } from '../state/small-site.ts'
import { listOf, versionOf } from './calibration-list.ts'

const dayMs = 86_400_000
const from = presentEpochMs - 30 * dayMs
const over = (list: ReturnType<typeof listOf>) => airTermOver(list, from, presentEpochMs, 'UTC')
const estimate = (efficiency: number, half = 0.03): EfficiencyEstimate => ({
  efficiency,
  standardError: half / 2,
  interval: [efficiency - half, efficiency + half],
  driftMetres: 0,
  changes: { airMetres: [0.01, -0.01], levelMetres: [0, 0], stepHours: 1, overHours: 24 },
  airRangeKpa: 2,
  byNextReading: { efficiency, interval: [efficiency - half, efficiency + half] },
  byRegression: { efficiency, interval: [efficiency - half, efficiency + half], trendMetresPerHour: 0 },
  byClark: efficiency,
  cautions: [],
})
const termOf = (list: ReturnType<typeof listOf>) => {
  const outcome = over(list)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

test('what is already taken out comes from the version in force', () => {
  expect(over(listOf('barometric', 'reference=101; maximumAgeMinutes=60'))).toMatchObject({
    value: { takenOut: 1, riseMetres: 0, openWell: false },
  })
  expect(
    over(listOf('barometric', 'reference=101; maximumAgeMinutes=60; efficiency=0.4; riseMetres=-8')),
  ).toMatchObject({ value: { takenOut: 0.4, riseMetres: -8 } })
  expect(over({ ...listOf(null, ''), venting: 'sealed' })).toMatchObject({ value: { takenOut: 0 } })
  expect(over({ ...listOf(null, ''), venting: 'vented' })).toMatchObject({
    value: { takenOut: 1, openWell: true },
  })
})

test('refused: venting not on record, a version that begins within, none in force', () => {
  const message = (list: ReturnType<typeof listOf>) => {
    const outcome = over(list)
    return outcome.ok ? '' : outcome.issues[0]?.message
  }
  expect(message(listOf(null, ''))).toContain('not on record')
  const known = listOf('barometric', 'reference=101; maximumAgeMinutes=60')
  const later = versionOf(2, 'barometric', 'reference=101; maximumAgeMinutes=60', from + dayMs)
  expect(message({ ...known, versions: [...known.versions, later] })).toContain('Version 2')
  expect(message({ ...known, versions: [later] })).toContain('begins within')
  expect(message({ ...known, versions: [] })).toContain('No calibration is in force')
})

test('the barometer that is named, else the nearest', () => {
  const near = series(8, 'BA-2/barometric-pressure')
  const far = series(9, 'BA-1/barometric-pressure')
  const points = new Map(
    [
      point('BA-1', 'BA-1', 'barometer', 20, 9),
      point('BA-2', 'BA-2', 'barometer', 1, 8, { levelMetres: 2 }),
    ].map((one) => [one.id, one]),
  )
  const tip = point('PZ-1A', 'PZ-1', 'piezometer', 0, 1)
  expect(barometerFor(tip, far.id, [near, far], points)?.series).toBe(far)
  const nearest = barometerFor(tip, null, [far, near], points)
  expect(nearest?.says).toBe(
    'Barometer: BA-2, 10 m away on plan and 2.6 m below the sensor; no barometer is named for this sensor, and this is the nearest.',
  )
  expect(barometerFor(tip, null, [], points)).toBeNull()
})

test('an interval has one barometer, or it is said where another begins', () => {
  const barometers = [
    { barometer: 'BA-1/barometric-pressure', fromEpochMs: null, entered: null },
    {
      barometer: 'BA-2/barometric-pressure',
      fromEpochMs: Date.UTC(2027, 4, 20),
      entered: { author: 'A. Reed', reason: 'nearer' },
    },
  ]
  const over = (fromDay: number, untilDay: number) =>
    barometerOver({ barometers }, Date.UTC(2027, 4, fromDay), Date.UTC(2027, 4, untilDay), 'UTC')
  expect(over(1, 20)).toEqual({ ok: true, value: 'BA-1/barometric-pressure' })
  expect(over(20, 30)).toEqual({ ok: true, value: 'BA-2/barometric-pressure' })
  const across = over(19, 21)
  expect(across.ok ? '' : across.issues[0]?.message).toContain(
    'corrected by another barometer, BA-2/barometric-pressure, from',
  )
  expect(barometerSentences({ barometers }, 'UTC')).toEqual([
    expect.stringMatching(
      /^Corrected by BA-2\/barometric-pressure from .*20 May.* on, before that by BA-1\/barometric-pressure\. A\. Reed: nearer$/,
    ),
  ])
  expect(barometerSentences({ barometers: barometers.slice(0, 1) }, 'UTC')).toEqual([])
})

test('the draft has the share that the sensor feels, within 0 to 1, and the evidence as its reason', () => {
  const proposal = proposeAirShare(estimate(0.62), 'BA-1', from, presentEpochMs, 'UTC')
  expect(proposal.share).toBeCloseTo(0.38, 12)
  expect(proposal.reason).toContain('0.62 (95 % interval 0.59 to 0.65)')
  expect(proposeAirShare(estimate(-0.02), 'BA-1', from, presentEpochMs, 'UTC').share).toBe(1)
  const fields = (parameters: string | null) =>
    withAirShare(
      fieldsOfVersion(
        versionOf(1, parameters === null ? null : 'barometric', parameters ?? ''),
        presentEpochMs,
        'UTC',
        'Engineer',
      ),
      proposal,
    )
  expect(fields('reference=101.2; maximumAgeMinutes=90').steps[0]?.values).toEqual({
    reference: '101.2',
    maximumAgeMinutes: '90',
    efficiency: '0.38',
  })
  // A share of a change has no vacuum to change from: a person gives the pressure.
  expect(fields('reference=0; maximumAgeMinutes=90').steps[0]?.values.reference).toBe('')
  expect(fields(null).steps.map(({ kind }) => kind)).toEqual(['barometric', 'zero'])
  expect(fields(null).reason).toBe(proposal.reason)
})

test('refused as a draft, or told against what is in force', () => {
  const sealed = listOf('barometric', 'reference=101; maximumAgeMinutes=60')
  expect(draftRefusal(sealed, termOf(sealed), estimate(0.5))).toBeNull()
  expect(draftRefusal(sealed, termOf(sealed), estimate(1.2))).toContain('outside 0 to 1')
  expect(
    draftRefusal(
      { ...sealed, barometers: [{ barometer: null, fromEpochMs: null, entered: null }] },
      termOf(sealed),
      estimate(0.5),
    ),
  ).toContain('barometerSensor')
  const vented = { ...listOf(null, ''), venting: 'vented' as const }
  const dipped = { ...listOf(null, ''), rawUnit: 'm', unit: 'm' }
  expect(draftRefusal(dipped, termOf(dipped), estimate(0.5))).toContain('no air pressure in the level')
  expect(draftRefusal(vented, termOf(vented), estimate(0.5))).toContain('vented')
  expect(againstShareInForce(termOf(sealed), estimate(0.01))).toContain('no reason to change it')
  expect(againstShareInForce(termOf(sealed), estimate(0.5))).toContain('outside the interval')
})

test('whole days on the site clock, never beyond it', () => {
  const texts = lastThirtyDays(presentEpochMs, 'Atlantic/Azores')
  expect(texts).toEqual({ from: '2027-05-02', until: '2027-06-01' })
  expect(readInterval(texts, presentEpochMs, 'UTC')).toMatchObject({
    value: { fromEpochMs: Date.UTC(2027, 4, 2), untilEpochMs: presentEpochMs },
  })
  for (const [begin, end] of [
    ['', '2027-06-01'],
    ['2027-06-01', ''],
    ['2027-06-01', '2027-05-01'],
    ['2020-06-01', '2027-05-01'],
  ] as const)
    expect(readInterval({ from: begin, until: end }, presentEpochMs, 'UTC').ok).toBe(false)
})

test('what else moved the water is told as far as it is known', () => {
  const entry = {
    at: from + dayMs,
    untilAt: null,
    kind: 'works' as const,
    text: 'Bailed',
    eastingMetres: null,
    northingMetres: null,
    author: 'Engineer',
  }
  const said = disturbances([], [entry], 12.34, from, presentEpochMs)
  expect(said[0]).toBe('The diary has 1 entry of works in it.')
  expect(said[1]).toContain('It rained 12.3 mm')
  expect(disturbances([], [], 0, from, presentEpochMs)).toHaveLength(1)
})
