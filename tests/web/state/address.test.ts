import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { surfaceAspects } from '#domain/ground/surface-aspects.ts'
import { surfaceMethods } from '#domain/ground/surface-methods.ts'
import { instrumentKinds, measures } from '#domain/site/vocabulary.ts'
import { readAddress, writeAddress } from '../../../web/state/address.ts'
import { type AddressState, emptyAddress } from '../../../web/state/address-state.ts'
import { isStep } from '../../../web/state/address-step.ts'
import { alertsPages } from '../../../web/state/alerts-page.ts'
import { mostCompared } from '../../../web/state/compared.ts'
import { countings } from '../../../web/state/counted.ts'
import { fieldPages } from '../../../web/state/field-page.ts'
import { groundAnalyses } from '../../../web/state/ground-analysis.ts'
import { networkPages } from '../../../web/state/network-page.ts'
import { pairedAges, pairedBy } from '../../../web/state/paired-how.ts'
import { planLayers } from '../../../web/state/plan-layers.ts'
import { profileAxes } from '../../../web/state/profile-look.ts'
import { reviewPages } from '../../../web/state/review-page.ts'
import { reviewStretches } from '../../../web/state/reviewed-series.ts'
import { sheetTabs } from '../../../web/state/sheet.ts'
import type { Standing } from '../../../web/ui/state-scale.ts'

const name = fc.stringMatching(/^[A-Za-z][A-Za-z0-9 .#&=+:%-]{0,14}$/)
const instant = fc.integer({ min: 0, max: 4_000_000_000_000 })
const decimal = (most: number, digits: number) =>
  fc
    .integer({ min: -most * 10 ** digits, max: most * 10 ** digits })
    .map((whole) => Number((whole / 10 ** digits).toFixed(digits)) + 0)
const standings: Standing[] = ['late', 'no-level', 'within', 'level-1', 'level-2', 'level-6']

const anyAddress: fc.Arbitrary<AddressState> = fc.record({
  site: fc.option(name),
  frozen: fc.option(fc.stringMatching(/^[0-9a-f]{16}$/)),
  clock: fc.oneof(fc.constant('present' as const), instant),
  counting: fc.constantFrom(...countings),
  selection: fc.oneof(
    fc.constant({ kind: 'nothing' as const }),
    fc.record({ kind: fc.constant('instrument' as const), instrument: name }),
    fc.record({
      kind: fc.constant('point' as const),
      point: name,
      measure: fc.option(fc.constantFrom(...measures)),
    }),
  ),
  filters: fc.record({
    hiddenKinds: fc.uniqueArray(fc.constantFrom(...instrumentKinds)),
    standings: fc.uniqueArray(fc.constantFrom(...standings)),
    text: fc.string(),
    openAlerts: fc.boolean(),
  }),
  layers: fc.subarray([...planLayers]),
  changeFromEpochMs: fc.option(instant),
  surfaceMethod: fc.constantFrom(...surfaceMethods),
  surfaceAspect: fc.constantFrom(...surfaceAspects),
  surfaceStratum: fc.option(fc.string({ minLength: 1, maxLength: 20 })),
  view: fc.option(
    fc.record({
      longitude: decimal(180, 6),
      latitude: decimal(90, 6),
      zoom: fc.integer({ min: 0, max: 2400 }).map((hundredths) => hundredths / 100),
      bearingDegrees: decimal(360, 1),
    }),
  ),
  tab: fc.constantFrom(...sheetTabs),
  analysis: fc.constantFrom(...groundAnalyses),
  fieldPage: fc.constantFrom(...fieldPages),
  networkPage: fc.constantFrom(...networkPages),
  reviewPage: fc.constantFrom(...reviewPages),
  reviewed: fc.option(
    fc.record({
      series: name,
      oddity: fc.constantFrom('value', 'silence', 'reading'),
      readingEpochMs: instant,
    }),
  ),
  reviewDays: fc.option(fc.constantFrom(...reviewStretches)),
  compared: fc.uniqueArray(name, { maxLength: mostCompared }),
  pairedHow: fc.record({
    by: fc.constantFrom(...pairedBy),
    mostApartMinutes: fc.constantFrom(...pairedAges),
    lagHours: fc.integer({ min: -720, max: 720 }),
  }),
  patch: fc.oneof(
    fc.integer({ min: 1, max: 999 }).map((radiusMetres) => ({ kind: 'around' as const, radiusMetres })),
    fc
      .array(fc.record({ eastingMetres: decimal(900_000, 1), northingMetres: decimal(900_000, 1) }), {
        minLength: 3,
        maxLength: 6,
      })
      .map((corners) => ({ kind: 'area' as const, corners })),
  ),
  audit: fc.record({ kind: fc.option(name), name: fc.option(name) }),
  alertsPage: fc.constantFrom(...alertsPages),
  openedAlert: fc.option(fc.integer({ min: 1, max: 999_999_999 })),
  openedMeeting: fc.option(fc.integer({ min: 1, max: 999_999_999 })),
  sectionLine: fc
    .array(fc.record({ eastingMetres: decimal(900_000, 2), northingMetres: decimal(900_000, 2) }), {
      maxLength: 5,
    })
    .filter((corners) => corners.length !== 1),
  profileDates: fc.array(instant, { maxLength: 6 }),
  profileAxis: fc.constantFrom(...profileAxes),
  stressShown: fc.boolean(),
  whatIf: fc.string(),
})

describe('address', () => {
  it('reads back exactly what was written', () => {
    fc.assert(
      fc.property(anyAddress, (state) => {
        expect(readAddress(writeAddress(state))).toEqual(state)
      }),
      { seed: 20270601, numRuns: 400 },
    )
  })

  it('is empty for a first opening', () => {
    expect(writeAddress(emptyAddress)).toBe('')
    expect(readAddress('')).toEqual(emptyAddress)
  })

  it('leaves aside what it cannot read and keeps the rest', () => {
    const read = readAddress(
      'axis=c&stress=some&site=quay&at=yesterday&selected=planet:Mars&view=1,2&sheet=garden&line=1,2&standing=fine late',
    )
    expect(read).toEqual({
      ...emptyAddress,
      site: 'quay',
      filters: { ...emptyAddress.filters, standings: ['late'] },
    })
  })

  it('never throws on any text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        readAddress(text)
      }),
      { seed: 20270602 },
    )
  })

  it('makes a step of a selection, not of a moved clock or view', () => {
    const view = { longitude: 1, latitude: 2, zoom: 3, bearingDegrees: 0 }
    expect(isStep(emptyAddress, { ...emptyAddress, clock: 5, view })).toBe(false)
    expect(
      isStep(emptyAddress, { ...emptyAddress, selection: { kind: 'instrument', instrument: 'PZ-1' } }),
    ).toBe(true)
    expect(isStep(emptyAddress, { ...emptyAddress, tab: 'register' })).toBe(true)
  })
})
