import { describe, expect, test } from 'vitest'
import type { Evidence, ReviewRule } from '#domain/review/evidence.ts'
import { findOddities } from '#domain/review/oddity.ts'
import { leadToDoubt, startOfGround, weighCase } from '#domain/review/rank-causes.ts'
import type { Neighbour, ReviewCase, Trace } from '#domain/review/review-case.ts'
import { reviewRules } from '#domain/review/review-rules.ts'
import { fromEpochMs, hourMs, makeWorld } from './made-world.ts'

const dayMs = 24 * hourMs
const world = makeWorld(11, 60)
const still = () => 0
const stepped = (size: number) => (h: number) => (h < 30 * 24 ? 0 : size)
const drifting = (size: number) => (h: number) => Math.max(0, (h - 30 * 24) / (30 * 24)) * size
const beside = (trace: Trace, distanceMetres: number, more: Partial<Neighbour> = {}): Neighbour => ({
  ...trace,
  distanceMetres,
  aboveMetres: 0,
  sameStratum: true,
  ...more,
})
const mark = (course: (h: number) => number, point = 'X-1') =>
  world.trace({ measure: 'settlement', course, point, everyHours: 24 })
const crack = (course: (h: number) => number) => world.trace({ measure: 'opening', course, point: 'CR' })
const tiltOf = (course: (h: number) => number, point = 'X-1') =>
  world.trace({ measure: 'tilt', course, point })
const found = (id: string, reviewed: ReviewCase): readonly Evidence[] =>
  (reviewRules.find((rule) => rule.id === id) as ReviewRule).weigh(reviewed)
const of = (evidence: readonly Evidence[], cause: string) =>
  evidence.filter((one) => one.cause === cause).reduce((sum, { decibans }) => sum + decibans, 0)

describe('every rule', () => {
  test('says why, and says in words that there is too little, of ten readings, one or none', () => {
    for (const count of [10, 1, 0]) {
      let said = 0
      const trace = mark(still)
      const short = {
        ...trace,
        atEpochMs: trace.atEpochMs.slice(0, count),
        values: trace.values.slice(0, count),
      }
      for (const rule of reviewRules) {
        expect(rule.reason).toMatch(/^[A-Z].*\.$/)
        const evidence = rule.weigh(
          world.caseOf(short, { same: [beside(short, 5)], other: [beside(short, 5)] }),
        )
        said += evidence.length
        for (const one of evidence) {
          // Ten that go as those beside them are something, and little.
          if (count < 10) expect(one.stands).toBe('missing')
          expect(Math.abs(one.decibans)).toBeLessThanOrEqual(2)
          expect(one.sentence).toMatch(/^[A-Z].*\.$/)
        }
      }
      expect(said).toBeGreaterThan(0)
      const table = weighCase(world.caseOf(short), 'value')
      expect(table.treatAsReal).toBe(true)
      expect(table.sentence).toContain(count === 0 ? 'nothing can be concluded' : 'treat it as real')
    }
  })

  test('bears values that are no numbers, and ones that are all equal', () => {
    for (const value of [Number.NaN, 7.25]) {
      const trace = tiltOf(still)
      const odd = { ...trace, values: trace.values.map(() => value) }
      const reviewed = world.caseOf(odd, { same: [beside(tiltOf(still, 'N'), 3)], drivers: world.drivers })
      for (const cause of weighCase(reviewed, 'value').ranked)
        expect(Number.isFinite(cause.decibans)).toBe(true)
    }
  })

  test('with no neighbours names what would tell', () => {
    const { ranked, sentence } = weighCase(world.caseOf(mark(stepped(8))), 'value')
    const missing = ranked.flatMap(({ evidence }) => evidence).filter(({ stands }) => stands === 'missing')
    expect(missing.map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(['same-quantity', 'other-quantity', 'by-hand', 'other-channels']),
    )
    expect(sentence).toMatch(/treat it as real\. \d things that would tell are missing\./)
  })
})

describe('the same quantity beside it', () => {
  const weigh = (own: Trace, ...same: Neighbour[]) => found('same-quantity', world.caseOf(own, { same }))

  test('that moved with it speaks for the ground', () => {
    const evidence = weigh(mark(stepped(8)), beside(mark(stepped(8), 'N'), 3))
    expect(of(evidence, 'ground')).toBeGreaterThan(5)
    expect(of(evidence, 'sensor')).toBeLessThan(-5)
  })

  test('that differs by no change told from chance still has an error: never 0.00 to 0.00', () => {
    const evidence = weigh(mark(stepped(8)), beside(mark(stepped(8), 'N'), 3))
    const { value, low, high } = evidence[0]?.figure ?? { value: Number.NaN, low: null, high: null }
    expect(low).toBeLessThan(value)
    expect(high).toBeGreaterThan(value)
  })

  test('that stood still speaks for the sensor, and the less the further it is off', () => {
    const at = (metres: number) => of(weigh(mark(stepped(8)), beside(mark(still, 'N'), metres)), 'sensor')
    expect(at(2)).toBeGreaterThan(4)
    expect(at(20)).toBeLessThan(1)
    expect(at(20)).toBeGreaterThan(0)
  })

  test('that moved while it stood still does not speak against the ground', () => {
    const two = [beside(mark(stepped(8), 'N'), 3), beside(mark(stepped(8), 'M'), 4)]
    for (const same of [two.slice(1), two])
      expect(of(weigh(mark(still), ...same), 'ground')).toBeGreaterThanOrEqual(0)
  })

  test('two that go together while it drifts away from both name it', () => {
    const level = (point: string) => beside(tiltOf(still, point), 2)
    const evidence = weigh(tiltOf(drifting(0.03)), level('N'), level('M'))
    expect(evidence[0]?.sentence).toMatch(/^N, M go together, and it parted from each of them by \+0\.0[23]/)
  })
})

describe('another quantity and readings by hand', () => {
  test('a crack that opens with a mark bears it out; one that stands still beside says little', () => {
    const weigh = (course: (h: number) => number, metres: number) =>
      found('other-quantity', world.caseOf(mark(stepped(8)), { other: [beside(crack(course), metres)] }))
    expect(of(weigh(stepped(0.6), 3), 'ground')).toBe(10)
    expect(of(weigh(stepped(0.6), 3), 'sensor')).toBe(-8)
    expect(of(weigh(still, 1), 'ground')).toBeLessThan(-3)
    expect(of(weigh(still, 14), 'ground')).toBeGreaterThan(-1.5)
  })

  test('a tape that parts from the sensor blames it, unless it was the tape that moved', () => {
    const pressure = (course: (h: number) => number, everyHours = 1) =>
      world.trace({ measure: 'pore-pressure', course: (h) => 80 + course(h), everyHours })
    const weigh = (own: (h: number) => number, hand: (h: number) => number) =>
      found('by-hand', world.caseOf(pressure(own), { byHand: [beside(pressure(hand, 96), 1)] }))
    expect(of(weigh(drifting(6), still), 'sensor')).toBeGreaterThan(10)
    expect(of(weigh(drifting(6), still), 'ground')).toBeLessThan(0)
    expect(of(weigh(still, drifting(6)), 'ground')).toBeGreaterThan(0)
    expect(of(weigh(drifting(6), drifting(6)), 'ground')).toBeGreaterThan(8)
  })
})

describe('temperature, air pressure and tide', () => {
  const weigh = (reviewed: ReviewCase) => found('driven-by-surroundings', reviewed)
  const bent = (h: number) => 0.004 * (world.airDegC(h - 2) - 14)

  test('a mounting that bends with warmth is the weather, two hours behind', () => {
    const evidence = weigh(world.caseOf(tiltOf(bent), { drivers: world.drivers }))
    expect(of(evidence, 'weather')).toBe(14)
    expect(evidence[0]?.sentence).toMatch(/follows the air temperature 2 h behind .*\+0\.00[34]\d*° per °C/)
  })

  test('a lean that remains when the warmth is taken off is not of the weather', () => {
    const evidence = weigh(
      world.caseOf(
        tiltOf((h) => bent(h) + drifting(0.2)(h)),
        { drivers: world.drivers },
      ),
    )
    expect(of(evidence, 'weather')).toBeLessThan(5)
    expect(of(evidence, 'ground')).toBeGreaterThan(0)
    expect(evidence[0]?.sentence).toMatch(/Taken off, \+0\.(1[5-9]|2)\d*° remain/)
  })

  test('a sealed transducer reads the whole of the air pressure behind a tide; the ground a share of it', () => {
    const pressure = (share: number) =>
      world.trace({
        measure: 'pore-pressure',
        course: (h) => 80 + 3 * world.tideMetres(h - 2) + share * (world.airKpa(h) - 101.3),
      })
    const sealed = weigh(world.caseOf(pressure(1), { drivers: world.drivers }))
    expect(of(sealed, 'weather')).toBe(14)
    const partly = weigh(world.caseOf(pressure(0.5), { drivers: world.drivers }))
    expect(of(partly, 'weather')).toBeLessThanOrEqual(0)
    const told = weigh(world.caseOf(pressure(1), { drivers: world.drivers, airStandsInValues: true }))
    expect(told.map(({ sentence }) => sentence).join()).toContain('the air pressure stands in its values')
  })

  test('a strut that pushes harder when it is warm is real', () => {
    const strut = world.trace({ measure: 'force', course: (h) => 900 + 20 * (world.airDegC(h) - 14) })
    expect(of(weigh(world.caseOf(strut, { drivers: world.drivers })), 'ground')).toBe(6)
  })

  test('what is read once a day, or beside no thermometer, is said to be missing', () => {
    for (const reviewed of [
      world.caseOf(mark(still), { drivers: world.drivers }),
      world.caseOf(tiltOf(still)),
    ])
      expect(weigh(reviewed).map(({ stands }) => stands)).toEqual(['missing'])
  })
})

describe('shape in time', () => {
  const shapes = (values: (value: number, at: number) => number, given: Partial<ReviewCase> = {}) => {
    const trace = tiltOf(still)
    return found('shape-in-time', world.caseOf({ ...trace, values: trace.values.map(values) }, given))
  }

  test('plain scatter has none; the newest readings are no spikes, whatever they are', () => {
    expect(shapes((value) => value)).toEqual([])
    expect(shapes((value, at) => (at >= 1436 ? value + 1 : value))).toEqual([])
  })

  test('a spike that a neighbour shows too is not laid on the sensor', () => {
    const spiked = (trace: Trace) => ({
      ...trace,
      values: trace.values.map((value, at) => (at === 700 ? value + 1 : value)),
    })
    const same = [beside(spiked(tiltOf(still, 'N')), 3)]
    expect(
      of(
        shapes((value, at) => (at === 700 ? value + 1 : value), { same }),
        'sensor',
      ),
    ).toBe(0)
    expect(
      of(
        shapes((value, at) => (at === 700 ? value + 1 : value)),
        'sensor',
      ),
    ).toBe(8)
  })

  test('all readings equal tell nothing, and no rest', () => {
    const [only] = shapes(() => 1.5)
    expect(only).toMatchObject({ stands: 'missing' })
    expect(only?.sentence).toContain('Do not take it for proof that nothing moves.')
  })

  test('no rain for a month is no fault', () => {
    const rain = world.trace({ measure: 'rainfall', course: still })
    const dry = { ...rain, values: rain.values.map((_, at) => (at % 300 === 0 ? 0.2 : 0)) }
    expect(found('shape-in-time', world.caseOf(dry))).toEqual([])
  })

  test('readings that stop at the end of the range do not speak against the ground', () => {
    const evidence = shapes((value, at) => Math.min(3, at / 200 + value), { range: { low: -3, high: 3 } })
    expect(evidence.map(({ sentence }) => sentence).join()).toMatch(
      /exactly the highest of all, 3\.00°: .* at the end of its range/,
    )
    expect(of(evidence, 'ground')).toBeGreaterThan(0)
  })

  test('a force may jump, a tilt is knocked', () => {
    const jump = (value: number, at: number) => (at < 700 ? value : value + 0.5)
    expect(of(shapes(jump), 'sensor')).toBe(5)
    const strut = world.trace({ measure: 'force', course: stepped(300) })
    expect(found('shape-in-time', world.caseOf(strut))).toEqual([])
  })
})

describe('records, works and the logger', () => {
  const at = (days: number) => fromEpochMs + days * dayMs
  const visit = (distanceMetres: number | null, days = 30) =>
    [{ kind: 'visit', atEpochMs: at(days), text: 'Bracket moved', distanceMetres }] as const

  test('a visit at the instrument on the day of a step weighs most, one further off or at another time less or nothing', () => {
    const weigh = (notes: ReviewCase['notes']) =>
      of(found('records-of-change', world.caseOf(tiltOf(stepped(0.1)), { notes })), 'sensor')
    expect(weigh(visit(0))).toBe(10)
    expect(weigh(visit(12))).toBe(5)
    expect(weigh(visit(50))).toBe(0)
    expect(weigh(visit(null))).toBe(0)
    expect(weigh(visit(0, 12))).toBe(0)
  })

  test('works that began shortly before speak for the ground, those that began after do not', () => {
    const weigh = (days: number) =>
      of(
        found(
          'works-and-diary',
          world.caseOf(tiltOf(stepped(0.1)), {
            notes: [{ kind: 'works', atEpochMs: at(days), text: 'Digging began', distanceMetres: 20 }],
          }),
        ),
        'ground',
      )
    expect(weigh(27)).toBe(3)
    expect(weigh(35)).toBe(0)
    expect(weigh(5)).toBe(0)
  })

  test('several channels that step together are the logger; two that took each other’s place are wires', () => {
    const together = world.caseOf(tiltOf(stepped(0.1)), { ofLogger: [tiltOf(stepped(-0.3), 'X-2')] })
    expect(of(found('other-channels', together), 'logger')).toBe(10)
    const exchanged = world.caseOf(tiltOf(stepped(0.4)), {
      ofLogger: [tiltOf((h) => 0.4 - stepped(0.4)(h), 'X-2')],
    })
    expect(of(found('other-channels', exchanged), 'logger')).toBe(0)
    expect(of(found('exchanged-channels', exchanged), 'sensor')).toBe(18)
    expect(found('exchanged-channels', together)).toEqual([])
  })

  test('a link that brings some is the radio; a logger without power, or one channel alone, is not', () => {
    const silent = (logger: Parameters<typeof world.logger>[0], given: Partial<ReviewCase> = {}) =>
      weighCase(world.caseOf(tiltOf(still), { logger: world.logger(logger), ...given }), 'silence').ranked[0]
        ?.cause
    const long = { fromEpochMs, untilEpochMs: fromEpochMs + 500 * hourMs }
    expect(silent({ inTime: 900, longestSilence: null, later: 400 })).toBe('radio')
    expect(
      silent({
        inTime: 900,
        longestSilence: long,
        battery: { volts: 2.7, leastVolts: 3, atEpochMs: fromEpochMs },
      }),
    ).toBe('logger')
    const trace = tiltOf(still)
    const cut = { ...trace, atEpochMs: trace.atEpochMs.slice(0, 1200), values: trace.values.slice(0, 1200) }
    expect(silent({}, { subject: cut })).toBe('sensor')
  })

  test('a clock within ten seconds a day is nothing to tell', () => {
    const weigh = (value: number) =>
      of(
        found(
          'logger-clock',
          world.caseOf(tiltOf(still), {
            logger: world.logger({ clockSecondsPerDay: { value, low: value - 2, high: value + 2 } }),
          }),
        ),
        'logger',
      )
    expect([weigh(5), weigh(11), weigh(41), weigh(-41)]).toEqual([0, 0, 18, 18])
  })

  test('a voltage that falls is the cells, told without a sign', () => {
    const volts = world.trace({ measure: 'battery-voltage', course: (h) => 3.6 - drifting(0.6)(h) })
    const steady = {
      ...volts,
      repeatability: 0.005,
      values: volts.values.map((_, at) => 3.6 - drifting(0.6)(at)),
    }
    expect(found('logger-cells', world.caseOf(steady))[0]?.sentence).toMatch(
      /^The voltage fell by 0\.\d+ *in/,
    )
  })
})

describe('checksums of a traverse', () => {
  const weeks = 17
  const surveyed = (last: number): Trace[] =>
    Array.from({ length: 20 }, (_, depth) => ({
      ...world.trace({ measure: 'checksum-a', course: still, point: `IC-${depth}`, everyHours: 168 }),
      unit: 'mm',
      repeatability: 0.14,
      atEpochMs: Array.from({ length: weeks }, (_, week) => fromEpochMs + (week * 168 + depth / 60) * hourMs),
      // Creeps with the season by 0.1 mm a week.
      values: Array.from({ length: weeks }, (_, week) => 4 - 0.1 * week + (week === weeks - 1 ? last : 0)),
    }))
  const weigh = (last: number) =>
    found('face-checksum', world.caseOf(mark(stepped(8)), { checksums: surveyed(last) }))

  test('one that creeps bears the survey out; one that jumps in the last survey is the probe, by half of it at every depth', () => {
    expect(of(weigh(0), 'sensor')).toBe(-3)
    expect(of(weigh(0.8), 'sensor')).toBe(18)
    expect(weigh(0.8)[0]?.sentence).toContain('Over 20 depths that sums to 8.00 mm')
  })

  test('fewer than eight surveys have no usual checksum', () => {
    const few = surveyed(0).map((trace) => ({
      ...trace,
      atEpochMs: trace.atEpochMs.slice(0, 5),
      values: trace.values.slice(0, 5),
    }))
    expect(found('face-checksum', world.caseOf(mark(still), { checksums: few }))[0]?.stands).toBe('missing')
  })
})

describe('the sum', () => {
  const rule = (decibans: number): ReviewRule => ({
    id: 'made',
    title: '',
    tells: ['value'],
    reason: '',
    source: null,
    weigh: () => [
      { rule: 'made', cause: 'sensor', stands: 'for', decibans, sentence: '', figure: null, picture: null },
    ],
  })
  const weigh = (decibans: number) => weighCase(world.caseOf(tiltOf(still)), 'value', [rule(decibans)])

  test('is real until another cause leads the ground by ten to one', () => {
    expect(weigh(startOfGround)).toMatchObject({
      treatAsReal: true,
      sentence: expect.stringContaining('treat it as real'),
    })
    expect(weigh(startOfGround).ranked[0]?.cause).toBe('ground')
    expect(weigh(startOfGround + leadToDoubt - 0.1)).toMatchObject({ treatAsReal: true })
    const doubted = weigh(startOfGround + leadToDoubt)
    expect(doubted.treatAsReal).toBe(false)
    expect(doubted.sentence).toContain('10 to 1. A person decides, and until then it is treated as real.')
  })

  test('what is missing or late never speaks against what was read', () => {
    const table = weighCase(world.caseOf(tiltOf(still), { logger: world.logger({ inTime: 10 }) }), 'silence')
    expect(table).toMatchObject({ treatAsReal: true })
    expect(table.sentence).toContain('It says nothing against the values that were read.')
  })
})

describe('what could not be looked at', () => {
  test('without the network document is told as missing, never as found to be in order', () => {
    const unknown = world.caseOf(mark(stepped(8)), { networkKnown: false })
    for (const id of ['logger-cells', 'delivery', 'other-channels'])
      expect(found(id, unknown)).toMatchObject([{ stands: 'missing' }])
    expect(found('other-channels', unknown)[0]?.sentence).toContain('not known here')
  })

  test('cells that were last read weeks before say nothing of the end, unless they were low already', () => {
    const cells = (volts: number) =>
      found(
        'logger-cells',
        world.caseOf(tiltOf(still), {
          logger: world.logger({ battery: { volts, leastVolts: 3, atEpochMs: fromEpochMs + 10 * dayMs } }),
        }),
      )
    expect(cells(3.6)).toMatchObject([{ stands: 'missing', decibans: 0 }])
    expect(cells(2.8)).toMatchObject([{ stands: 'for', cause: 'logger' }])
    expect(cells(2.8)[0]?.sentence).toContain('were last read on 2031-04-11')
  })

  test('of what is out of use the silence is nobody’s fault, and it is said that nothing is known', () => {
    const trace = tiltOf(still)
    const cut = { ...trace, atEpochMs: trace.atEpochMs.slice(0, 900), values: trace.values.slice(0, 900) }
    const logger = world.logger()
    const used = world.caseOf(cut, { logger })
    expect(findOddities(used).map(({ oddity }) => oddity)).toContain('silence')
    expect(found('own-channel', used)).not.toEqual([])
    const ended = { ...used, outOfUseSinceEpochMs: fromEpochMs + 900 * hourMs }
    expect(findOddities(ended).map(({ oddity }) => oddity)).toEqual(['value'])
    expect(findOddities(ended)[0]?.sentence).toContain('It is out of use since 2031-05-08')
    expect(found('own-channel', ended)).toEqual([])
    const damage = {
      kind: 'damage',
      atEpochMs: fromEpochMs + 900 * hourMs,
      text: 'cable cut',
      distanceMetres: 2,
    } as const
    const lost = { ...ended, notes: [damage] }
    expect(findOddities(lost).map(({ oddity }) => oddity)).toContain('silence')
    expect(found('own-channel', lost)).not.toEqual([])
    expect(found('own-channel', { ...lost, notes: [{ ...damage, distanceMetres: 40 }] })).toEqual([])
  })

  test('a neighbour that somebody doubts is named', () => {
    const reviewed = world.caseOf(mark(stepped(8)), {
      timeZone: 'Pacific/Auckland',
      foundBeside: [
        {
          series: 'N/settlement',
          verdict: 'doubtful',
          fromEpochMs: Date.UTC(2031, 3, 9, 13),
          author: 'A. Judge',
        },
      ],
    })
    // Auckland is twelve hours ahead in April: the day there is the next one.
    expect(found('found-beside', reviewed)[0]?.sentence).toBe(
      'N/settlement was found doubtful by A. Judge from 2031-04-10 on: what rests on it is in doubt as well.',
    )
  })
})

describe('works stage and prediction', () => {
  const stage = { id: 's', name: 'Dig', startsAt: fromEpochMs, endsAt: null, formationLevelMetres: null }
  const expected = (low: number, high: number) => [
    {
      ...{ stage, fromEpochMs, untilEpochMs: null, source: 'Design report' },
      ...{ low: Math.min(0, low), high: Math.max(0, high), atEnd: { low, high } },
    },
  ]
  const weighed = (size: number, low: number, high: number) =>
    found('works-prediction', { ...world.caseOf(mark(drifting(size))), expected: expected(low, high) })

  test('a change within what the stage lets expect speaks for the ground, the other way it says nothing', () => {
    const [line] = weighed(5, 4, 8)
    expect(line).toMatchObject({ cause: 'ground', stands: 'for', decibans: 3 })
    expect(line?.sentence).toMatch(
      /^[45]\.\d\d mm lies within the prediction for “Dig” \(0 to 8\.00 mm\), at least since .*, \d\d % of/,
    )
    expect(weighed(5, -8, 8.5)).toHaveLength(1)
    expect(weighed(-5, -6, 8)).toEqual([])
  })

  test('beyond it nothing is doubted for that: since when and by how much is told', () => {
    const [line] = weighed(9, 2, 6)
    expect(line).toMatchObject({ cause: 'ground', stands: 'for' })
    expect(line?.sentence).toMatch(
      /lies [23]\.\d\d mm beyond the prediction for “Dig” .*since 2031-05-\d\d, 1[45]\d % of/,
    )
  })

  test('without a prediction that is said, and where the design was not looked at nothing is', () => {
    const [line] = found('works-prediction', { ...world.caseOf(mark(still)), expected: [] })
    expect(line).toMatchObject({ stands: 'missing' })
    expect(line?.sentence).toContain('No prediction of it is on record')
    expect(found('works-prediction', world.caseOf(mark(still)))).toEqual([])
  })
})
