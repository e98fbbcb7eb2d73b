import { describe, expect, test } from 'vitest'
import { assert } from '#domain/assert.ts'
import { correctedModel } from '#domain/corrections/corrected-model.ts'
import type { CorrectionDraft } from '#domain/corrections/correction.ts'
import { resolveCorrections, stepsOf } from '#domain/corrections/resolve-corrections.ts'
import { staleCorrections } from '#domain/corrections/stale-corrections.ts'
import { barometersOf } from '#domain/reduction/barometer-in-force.ts'
import { calibrationPeriods } from '#domain/reduction/calibration-in-force.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { smallSite } from '../site/small-site.ts'

const series = 'PZ-1A/pore-pressure'
const warmth = 'PZ-1A/temperature'
const at = (month: number, day = 1) => Date.UTC(2027, month - 1, day)
const signature = { author: 'Ada Marsh', reason: 'zero taken again' }

function site(): SiteModel {
  const read = readSite(smallSite())
  assert(read.ok, 'the small site is sound')
  return read.value
}

const zeroDraft = (change: Partial<CorrectionDraft> = {}): CorrectionDraft =>
  ({
    kind: 'calibration',
    series,
    fromEpochMs: at(4),
    untilEpochMs: null,
    was: stepsOf(site(), 'CC-1/2'),
    steps: [
      { kind: 'linear', parameters: 'factor=-0.1; offset=800; unit=kPa' },
      { kind: 'zero', parameters: 'value=0.9' },
    ],
    ...change,
  }) as CorrectionDraft

function resolved(model: SiteModel, ...drafts: readonly CorrectionDraft[]) {
  const found = resolveCorrections(model, drafts)
  assert(found.ok, 'the drafts go with the records')
  return found.value
}
function corrected(model: SiteModel, ...drafts: readonly CorrectionDraft[]): SiteModel {
  const made = correctedModel(model, resolved(model, ...drafts), signature)
  assert(made.ok, 'the corrections go with the records')
  return made.value
}
const codes = (outcome: { ok: boolean; issues?: readonly { code: string }[] }) =>
  outcome.issues?.map(({ code }) => code)
/** Which version holds from when. */
function periods(model: SiteModel) {
  const read = readCalibrations(model)
  assert(read.ok, 'calibrations can be read')
  return calibrationPeriods(read.value.filter(({ sensor }) => sensor === series)).map(
    ({ calibration, fromEpochMs }) => [calibration.id, fromEpochMs],
  )
}

describe('a chain', () => {
  test('is a new version from its instant on; earlier versions stay as they were', () => {
    const before = site()
    const after = corrected(before, zeroDraft())
    expect(after.calibrations.slice(0, before.calibrations.length)).toEqual(before.calibrations)
    expect(after.calibrationSteps.slice(0, before.calibrationSteps.length)).toEqual(before.calibrationSteps)
    expect(after.calibrations.at(-1)).toMatchObject({
      id: 'CC-1/3',
      version: 3,
      validFrom: at(4),
      certificate: 'C-77',
      standardUncertainty: 0.3,
      author: 'Ada Marsh',
    })
    expect(periods(after)).toEqual([
      ['CC-1/1', at(1)],
      ['CC-1/2', at(2)],
      ['CC-1/3', at(4)],
    ])
  })

  test('that ends is followed by a version that is as the replaced one again', () => {
    const after = corrected(site(), zeroDraft({ untilEpochMs: at(5) }))
    expect(periods(after).slice(2)).toEqual([
      ['CC-1/3', at(4)],
      ['CC-1/4', at(5)],
    ])
    expect(stepsOf(after, 'CC-1/4')).toEqual(stepsOf(after, 'CC-1/2'))
    expect(after.calibrations.at(-1)?.reason).toMatch(/^As CC-1\/2 again/)
  })

  test('in two stretches that go on from each other is one version', () => {
    const after = corrected(
      site(),
      zeroDraft({ untilEpochMs: at(5) }),
      zeroDraft({ fromEpochMs: at(5), untilEpochMs: null }),
    )
    expect(periods(after).slice(2)).toEqual([['CC-1/3', at(4)]])
  })

  test('from the instant of the version it replaces holds in its place', () => {
    const after = corrected(site(), zeroDraft({ fromEpochMs: at(2) }))
    expect(periods(after)).toEqual([
      ['CC-1/1', at(1)],
      ['CC-1/3', at(2)],
    ])
  })

  test('says what differs, in words', () => {
    const [one] = resolved(site(), zeroDraft())
    expect(one).toMatchObject({
      name: 'zero',
      replaces: 'CC-1/2',
      before: 'CC-1/2 has step 2, zero: value 0.4.',
      after:
        'A new version has step 2, zero: value 0.9; certificate, due date and standard uncertainty stay those of CC-1/2.',
    })
    const linear = zeroDraft({
      steps: [{ kind: 'linear', parameters: 'factor=-0.11; offset=800; unit=kPa' }],
    } as Partial<CorrectionDraft>)
    expect(resolved(site(), linear)[0]).toMatchObject({
      name: 'calibration',
      before: 'CC-1/2 has step 1, linear: factor −0.1; step 2, zero: value 0.4.',
      after: expect.stringMatching(/^A new version has step 1, linear: factor −0\.11; no step 2;/),
    })
  })

  test('that was tried on another chain, changes nothing or runs into a later version is refused', () => {
    const model = site()
    const refused = (...drafts: readonly CorrectionDraft[]) => codes(resolveCorrections(model, drafts))
    const other = [{ kind: 'zero', parameters: 'value=1' }]
    expect(refused(zeroDraft({ was: other } as Partial<CorrectionDraft>))).toEqual(['version-overtaken'])
    expect(refused(zeroDraft({ steps: stepsOf(model, 'CC-1/2') } as Partial<CorrectionDraft>))).toEqual([
      'changes-nothing',
    ])
    const early = zeroDraft({
      fromEpochMs: at(1, 5),
      was: stepsOf(model, 'CC-1/1'),
    } as Partial<CorrectionDraft>)
    expect(refused(early)).toEqual(['version-begins-within'])
    expect(refused(zeroDraft({ fromEpochMs: Date.UTC(2020, 0) }))).toEqual(['no-calibration'])
    expect(refused(zeroDraft({ untilEpochMs: at(4) }))).toEqual(['ends-before-begin'])
    expect(refused(zeroDraft({ series: 'PZ-9/pore-pressure' }))).toEqual(['sensor-unknown'])
    expect(refused(zeroDraft(), zeroDraft({ fromEpochMs: at(6) }))).toEqual(['correction-repeated'])
  })

  test('whose units do not join is refused by the checks of calibrations', () => {
    const model = site()
    const steps = [{ kind: 'linear', parameters: 'factor=1; offset=0; unit=mm' }]
    const made = correctedModel(
      model,
      resolved(model, zeroDraft({ steps } as Partial<CorrectionDraft>)),
      signature,
    )
    expect(codes(made)).toEqual(['units-do-not-join'])
  })
})

test('a version that began since is told, and what was proposed is not made over it', () => {
  const before = site()
  const proposed = resolved(before, zeroDraft())
  const meanwhile = corrected(before, zeroDraft({ fromEpochMs: at(3) }))
  const late = correctedModel(meanwhile, proposed, signature)
  expect(codes(late)).toEqual(['version-overtaken'])
  assert(!late.ok, 'it is refused')
  expect(late.issues[0]?.message).toMatch(/in the place of CC-1\/2; since then CC-1\/3 holds/)
})

describe('wiring', () => {
  const [one, two, three] = ['1', '2', '3'].map((channel) => ({ logger: 'LG-1', channel }))
  assert(one && two && three, 'three channels')
  const exchange = (fromEpochMs: number, untilEpochMs: number | null): readonly CorrectionDraft[] => [
    { kind: 'wiring', series, fromEpochMs, untilEpochMs, was: three, reads: two },
    { kind: 'wiring', series: warmth, fromEpochMs, untilEpochMs, was: two, reads: three },
  ]
  const rows = (model: SiteModel) =>
    model.wiring
      .map(({ channel, sensor, fromAt, untilAt }) => [channel, sensor, fromAt, untilAt])
      .toSorted((a, b) => `${a[1]}${a[2]}`.localeCompare(`${b[1]}${b[2]}`))

  test('of exchanged leads ends at the instant and begins crosswise', () => {
    expect(rows(corrected(site(), ...exchange(at(6), null)))).toEqual([
      ['1', series, at(2), at(3)],
      ['3', series, at(3), at(6)],
      ['2', series, at(6), null],
      ['2', warmth, at(2), at(6)],
      ['3', warmth, at(6), null],
    ])
  })

  test('of a stretch goes on afterwards as before', () => {
    expect(rows(corrected(site(), ...exchange(at(6), at(7)))).filter(([, of]) => of === series)).toEqual([
      ['1', series, at(2), at(3)],
      ['3', series, at(3), at(6)],
      ['2', series, at(6), at(7)],
      ['3', series, at(7), null],
    ])
  })

  test('from the beginning of a row leaves nothing of that row', () => {
    expect(rows(corrected(site(), ...exchange(at(3), at(4))))).toEqual([
      ['1', series, at(2), at(3)],
      ['2', series, at(3), at(4)],
      ['3', series, at(4), null],
      ['2', warmth, at(2), at(3)],
      ['3', warmth, at(3), at(4)],
      ['2', warmth, at(4), null],
    ])
  })

  test('of one lead alone would let a channel read two sensors, and is refused', () => {
    const model = site()
    const [alone] = exchange(at(6), null)
    assert(alone, 'one lead')
    expect(codes(correctedModel(model, resolved(model, alone), signature))).toContain('channel-wired-twice')
  })

  test('that is not on record in the whole of the time is refused', () => {
    const model = site()
    expect(codes(resolveCorrections(model, exchange(at(2, 10), null)))).toEqual(['wiring-overtaken'])
    const strange: CorrectionDraft = {
      kind: 'wiring',
      series,
      fromEpochMs: at(6),
      untilEpochMs: null,
      was: three,
      reads: { logger: 'LG-1', channel: '4' },
    }
    expect(codes(resolveCorrections(model, [strange]))).toEqual(['channel-unknown'])
  })
})

describe('zero readings', () => {
  const reading = { calibration: 'CC-1/2', at: at(2), raw: 7996, author: 'A. Reed' }
  const model: SiteModel = {
    ...site(),
    zeroReadings: [{ ...reading, temperatureDegC: null, barometerKpa: null }],
  }
  const factor = [
    { kind: 'linear', parameters: 'factor=-0.11; offset=800; unit=kPa' },
    { kind: 'zero', parameters: 'value=0.4' },
  ]

  test('of the replaced version are those of the new one while its zero stays', () => {
    const after = corrected(
      model,
      zeroDraft({ steps: factor, untilEpochMs: at(5) } as Partial<CorrectionDraft>),
    )
    expect(after.zeroReadings.map(({ calibration, raw }) => [calibration, raw])).toEqual([
      ['CC-1/2', 7996],
      ['CC-1/3', 7996],
      ['CC-1/4', 7996],
    ])
  })

  test('that a zero was taken from stand with its new version, signed', () => {
    const zeroFrom = { zero: { by: 'reading', atEpochMs: at(4) }, reads: 0 } as const
    const [change] = resolved(model, zeroDraft({ zeroFrom } as Partial<CorrectionDraft>))
    assert(change, 'one change')
    expect(change.after).toMatch(/Its zero is taken from the last reading at or before .* recorded with it/)
    const taken = { at: at(4), raw: 7991, temperatureDegC: null, barometerKpa: null }
    const made = correctedModel(model, [{ ...change, zeroReadings: [taken] }], signature)
    assert(made.ok, 'it goes with the records')
    expect(made.value.zeroReadings.slice(1)).toEqual([
      { ...taken, calibration: 'CC-1/3', author: signature.author },
    ])
  })

  test('are not those of another zero, and that is told', () => {
    expect(corrected(model, zeroDraft()).zeroReadings).toHaveLength(1)
    expect(resolved(model, zeroDraft())[0]?.after).toMatch(
      /The zero readings of CC-1\/2 were not taken for it/,
    )
  })
})

describe('a barometer', () => {
  const [first, second] = ['BA-1/barometric-pressure', 'BA-2/barometric-pressure']
  /** The small site with a second barometer. */
  function two(): SiteModel {
    const model = site()
    const [sensor, point] = [
      model.sensors.find(({ id }) => id === first),
      model.points.find(({ id }) => id === 'BA-1'),
    ]
    assert(sensor && point, 'a barometer')
    return {
      ...model,
      points: [...model.points, { ...point, id: 'BA-2' }],
      sensors: [...model.sensors, { ...sensor, id: second, point: 'BA-2' }],
    }
  }
  const change = (fromEpochMs: number, untilEpochMs: number | null, was = first, barometer = second) =>
    ({ kind: 'barometer', series, fromEpochMs, untilEpochMs, was, barometer }) as const
  const held = (model: SiteModel) =>
    model.sensorBarometers.map(({ version, validFrom, barometer }) => [version, validFrom, barometer])

  test('is a version from its instant on, signed; one that ends is followed by what was before', () => {
    const once = corrected(two(), change(at(4), null))
    expect(once.sensorBarometers).toEqual([
      { sensor: series, version: 1, validFrom: at(4), barometer: second, ...signature },
    ])
    expect(held(corrected(two(), change(at(4), at(5))))).toEqual([
      [1, at(4), second],
      [2, at(5), first],
    ])
    // No version is edited, and a later one may begin earlier.
    const twice = corrected(once, change(at(3), at(4)))
    expect(held(twice)).toEqual([
      [1, at(4), second],
      [2, at(3), second],
    ])
  })

  test('in two stretches that meet is not ended between them', () => {
    expect(held(corrected(two(), change(at(4), at(5)), change(at(5), at(6))))).toEqual([
      [1, at(4), second],
      [2, at(5), second],
      [3, at(6), first],
    ])
  })

  test('goes on past a record that said again what held already, and ends where it is to end', () => {
    // Corrected until June and taken back: the record that ended it begins nothing any more.
    const undone = corrected(corrected(two(), change(at(4), at(6))), change(at(4), at(6), second, first))
    expect(held(undone)).toEqual([
      [1, at(4), second],
      [2, at(6), first],
      [3, at(4), first],
    ])
    const since = (model: SiteModel) => {
      const sensor = model.sensors.find(({ id }) => id === series)
      assert(sensor, 'the sensor')
      return barometersOf(model.sensorBarometers)(sensor)
        .slice(1)
        .map(({ barometer, fromEpochMs }) => [barometer, fromEpochMs])
    }
    expect(since(undone)).toEqual([])
    const forGood = corrected(undone, change(at(5), null))
    expect(since(forGood)).toEqual([[second, at(5)]])
    expect(forGood.sensorBarometers.slice(0, 3)).toEqual(undone.sensorBarometers)
    expect(forGood.sensorBarometers.at(-1)?.reason).toBe(
      'By BA-2/barometric-pressure still, in the time of the correction before it. zero taken again',
    )
    for (const until of [6, 7])
      expect(since(corrected(undone, change(at(5), at(until))))).toEqual([
        [second, at(5)],
        [first, at(until)],
      ])
  })

  test('says what differs, in words', () => {
    expect(resolved(two(), change(at(4), null))).toMatchObject([
      {
        name: 'barometer',
        replaces: first,
        before: 'It is corrected by BA-1/barometric-pressure.',
        after: 'It is corrected by BA-2/barometric-pressure.',
      },
    ])
  })

  test('that is recorded already, is none, was tried on another or runs into a later one is refused', () => {
    const once = corrected(two(), change(at(4), null))
    expect(codes(resolveCorrections(two(), [change(at(4), null, first, first)]))).toEqual(['changes-nothing'])
    expect(codes(resolveCorrections(two(), [change(at(4), null, first, warmth)]))).toEqual([
      'barometer-unknown',
    ])
    expect(codes(resolveCorrections(once, [change(at(4), null)]))).toEqual(['barometer-overtaken'])
    expect(codes(resolveCorrections(once, [change(at(3), null)]))).toEqual(['barometer-begins-within'])
    const proposed = resolved(two(), change(at(4), null))
    expect(codes(correctedModel(once, proposed, signature))).toEqual(['barometer-overtaken'])
  })

  test('that is another by now is told of a zero that was taken by the one before', () => {
    const zero = resolved(two(), zeroDraft()).map((one) => ({ ...one, zeroBarometer: first }))
    expect(staleCorrections(two(), zero)).toEqual([])
    // From before the zero on its values are by the other; what begins after it leaves its readings alone.
    const earlier = corrected(two(), change(at(3), null))
    expect(codes(correctedModel(earlier, zero, signature))).toEqual(['zero-by-another-barometer'])
    expect(staleCorrections(earlier, zero)).toMatchObject([
      {
        column: 'changes.0',
        value: series,
        message: expect.stringMatching(
          /taken by BA-1\/.*on record as corrected by BA-2\/barometric-pressure at .* \(Ada Marsh: zero taken again\)/,
        ),
      },
    ])
    for (const model of [corrected(two(), change(at(3), at(4))), corrected(two(), change(at(5), null))])
      expect(staleCorrections(model, zero)).toEqual([])
    // One that is proposed beside it is the one that its values will be by.
    const both = resolved(two(), zeroDraft(), change(at(3), null))
    const taken = (zeroBarometer: string) =>
      both.map((one) => (one.kind === 'calibration' ? { ...one, zeroBarometer } : one))
    expect(staleCorrections(two(), taken(second))).toEqual([])
    expect(codes({ ok: false, issues: staleCorrections(two(), taken(first)) })).toEqual([
      'zero-by-another-barometer',
    ])
  })

  test('is named before a chain is judged that takes air pressure off for the first time', () => {
    const bare: SiteModel = {
      ...two(),
      sensors: two().sensors.map((one) => ({ ...one, barometerSensor: null })),
    }
    const air = zeroDraft({
      steps: [
        ...stepsOf(site(), 'CC-1/2'),
        { kind: 'barometric', parameters: 'reference=101; maximumAgeMinutes=90' },
      ],
    } as Partial<CorrectionDraft>)
    const named = { ...change(at(4), null), was: null }
    expect(codes(correctedModel(bare, resolved(bare, air), signature))).toContain('companion-not-named')
    const after = corrected(bare, air, named)
    expect(held(after)).toEqual([[1, at(4), second]])
    expect(periods(after).at(-1)).toEqual(['CC-1/3', at(4)])
  })
})
