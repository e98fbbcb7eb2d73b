import { expect, test } from 'vitest'
import { commissioningStanding } from '#domain/field/commissioning-standing.ts'
import { commissioningStart } from '#domain/field/commissioning-start.ts'
import { commissioningSteps } from '#domain/field/commissioning-steps.ts'
import type { Evidence, FieldBody } from '#domain/field/field-bodies.ts'
import { judgeStep } from '#domain/field/judge-step.ts'
import type { StepSurroundings } from '#domain/field/step-surroundings.ts'
import { judgeCoverageTest } from '#domain/radio/acceptance.ts'

const steps = commissioningSteps([
  { channel: '3', sensor: 'PZ-05C/pore-pressure', rawUnit: 'mA', unit: 'kPa' },
])
const stepOf = (id: string) => steps.find((step) => step.id === id) as (typeof steps)[number]
const coverageTest = (sent: number, received: number, change: object = {}) => {
  const { verdict, certainOfHalf, cautions } = judgeCoverageTest([{ spreadingFactor: 9, sent, received }])
  const known = { logger: 'LG-05', atEpochMs: 500, disputed: false, refused: false }
  return { accepted: verdict === 'accepted', certainOfHalf, cautions, ...known, ...change }
}
const around: StepSurroundings = {
  logger: 'LG-05',
  startedAtEpochMs: 1000,
  channel: {
    reduce: (raw) => (raw >= 3.6 ? (raw - 4) * 20 : null),
    unit: 'kPa',
    decimals: 2,
    standardUncertainty: 0.3,
  },
  shortestIntervalMinutes: 15,
  coverageTests: new Map([
    ['CT-1', coverageTest(40, 38)],
    ['CT-2', coverageTest(40, 8)],
    ['CT-3', coverageTest(40, 38, { accepted: null })],
    ['CT-5', coverageTest(40, 38, { logger: 'LG-06' })],
    ['CT-6', coverageTest(40, 38, { disputed: true })],
    ['CT-7', coverageTest(40, 38, { refused: true })],
    ['CT-8', coverageTest(20, 11)],
    ['CT-9', coverageTest(40, 38, { logger: null })],
  ]),
  lastWorksChange: null,
  receipts: new Map([['3', { atEpochMs: 1500, receivedAtEpochMs: 2000 }]]),
  memoryTakenAtEpochMs: null,
}
const judge = (id: string, evidence: Evidence, change: Partial<StepSurroundings> = {}) =>
  judgeStep(stepOf(id), evidence, { ...around, ...change })

const channel = {
  predictedLow: 100,
  predictedHigh: 140,
  terminals: '3, white and green',
  reading: 10,
  disturbedBy: 'lifted 0.5 m',
  shouldMove: 'fall',
  readingDisturbed: 9.75,
  noOtherMoved: true,
}

test('a channel passes when its reading is as predicted and it alone moves the right way', () => {
  expect(judge('channel:3', channel)).toEqual({ passed: true, sentences: [] })
  expect(judge('channel:3', { ...channel, reading: 17 }).sentences[0]).toContain(
    '100 to 140 kPa was predicted',
  )
  expect(judge('channel:3', { ...channel, readingDisturbed: 10.2 }).sentences[0]).toContain(
    'the wrong way round',
  )
  expect(judge('channel:3', { ...channel, readingDisturbed: 10 }).sentences[0]).toContain('did not move')
  expect(judge('channel:3', { ...channel, noOtherMoved: false }).passed).toBe(false)
  expect(judge('channel:3', { ...channel, reading: 2 }).passed).toBe(false)
})

test('clock, cells and names are held against what they must be', () => {
  const clock = { foundAheadSeconds: 41, daysSinceSet: 1, leftAheadSeconds: 0 }
  expect(judge('clock', clock)).toMatchObject({
    passed: true,
    sentences: [expect.stringMatching(/41.0 s a day/)],
  })
  expect(judge('clock', { ...clock, leftAheadSeconds: 30 }).passed).toBe(false)
  expect(judge('batteries', { cells: 4, restVolts: 3.6, loadVolts: 3.1, leastVolts: 3.3 }).passed).toBe(false)
  expect(judge('names', { nameOnLogger: 'LG-06', cablesNamed: true }).passed).toBe(false)
})

test('without a prediction it is said what the test reading was held against', () => {
  const unpredicted = { ...channel, predictedLow: null }
  expect(judge('channel:3', unpredicted)).toMatchObject({
    passed: false,
    sentences: [expect.stringMatching(/say what the test reading was held against/)],
  })
  expect(judge('channel:3', { ...unpredicted, heldAgainst: 'a dip in the hole, 12.1 m' })).toMatchObject({
    passed: true,
    sentences: [expect.stringMatching(/held against a dip in the hole, 12.1 m/)],
  })
  expect(stepOf('channel:3').fields.find(({ name }) => name === 'heldAgainst')?.optional).toBe(true)
})

test('a change of noise does not prove a channel, a change of five steps and three uncertainties does', () => {
  const moved = (readingDisturbed: number, standardUncertainty: number | null) =>
    judge(
      'channel:3',
      { ...channel, readingDisturbed },
      {
        channel: { ...(around.channel as NonNullable<typeof around.channel>), standardUncertainty },
      },
    )
  // 0.002 mA is 0.04 kPa, below 5 steps of 0.01 kPa; 0.0025 mA is just so many.
  expect(moved(9.998, null)).toMatchObject({
    passed: false,
    sentences: [expect.stringMatching(/moved by 0.040 kPa only: not told from noise; disturb it more/)],
  })
  expect(moved(9.9975, null).passed).toBe(true)
  expect(moved(9.96, 0.3).passed).toBe(false)
  expect(moved(9.955, 0.3).passed).toBe(true)
  expect(moved(3, 0.3).sentences[0]).toContain('while disturbed has no engineering value')
})

test('the interval is that of what is wired', () => {
  const interval = (intervalMinutes: number, wired: number | null = 15) =>
    judge('interval', { loggersOnGateway: 12, intervalMinutes }, { shortestIntervalMinutes: wired })
  expect(interval(15)).toEqual({ passed: true, sentences: [] })
  expect(interval(60)).toMatchObject({
    passed: false,
    sentences: [expect.stringMatching(/every 60 min; 15 min is the shortest/)],
  })
  expect(interval(60, null)).toMatchObject({ passed: true, sentences: [expect.stringMatching(/nothing/)] })
})

test('a coverage test is of this logger, held by all, taken, accepted and settled', () => {
  const coverage = (test: string, change: Partial<StepSurroundings> = {}) =>
    judge('coverage', { test }, change)
  expect(coverage('CT-1')).toEqual({ passed: true, sentences: [] })
  const why = {
    'CT-2': /not accepted/,
    'CT-3': /not known yet/,
    'CT-4': /No coverage test CT-4/,
    'CT-5': /made with LG-06, not with LG-05/,
    'CT-6': /written twice/,
    'CT-7': /did not take/,
    'CT-9': /names no logger/,
  }
  for (const [test, sentence] of Object.entries(why))
    expect(coverage(test)).toEqual({ passed: false, sentences: [expect.stringMatching(sentence)] })
  expect(coverage('CT-8')).toMatchObject({
    passed: false,
    sentences: [expect.stringMatching(/accepted but is not settled/), expect.stringMatching(/95 % interval/)],
  })
  const dug = { name: 'Dig to level -2', atEpochMs: 600 }
  expect(coverage('CT-1', { lastWorksChange: dug })).toMatchObject({
    passed: true,
    sentences: [expect.stringMatching(/older than the last change of the works \(Dig to level -2\)/)],
  })
  expect(coverage('CT-1', { lastWorksChange: { ...dug, atEpochMs: 500 } }).sentences).toEqual([])
})

test('a receipt is of a reading taken since the start, by the way it will always take', () => {
  const receipt = (
    atEpochMs: number,
    receivedAtEpochMs: number,
    memoryTakenAtEpochMs: number | null = null,
  ) =>
    judge(
      'receipt',
      {},
      {
        receipts: new Map([['3', { atEpochMs, receivedAtEpochMs }]]),
        memoryTakenAtEpochMs,
      },
    )
  expect(receipt(1000, 1000)).toEqual({ passed: true, sentences: [] })
  expect(receipt(900, 999)).toMatchObject({
    passed: false,
    sentences: [expect.stringMatching(/Nothing newer/)],
  })
  expect(receipt(1500, 999).passed).toBe(false)
  expect(receipt(999, 2000)).toMatchObject({ passed: false, sentences: [expect.stringMatching(/came late/)] })
  expect(receipt(1500, 2000, 1500)).toMatchObject({
    passed: false,
    sentences: [expect.stringMatching(/may have come by cable/)],
  })
  expect(receipt(1501, 2000, 1500)).toMatchObject({
    passed: true,
    sentences: [expect.stringMatching(/brought in since this work began/)],
  })
  expect(receipt(1500, 2000, 900)).toEqual({ passed: true, sentences: [] })
  expect(judge('receipt', {}, { receipts: new Map([['3', null]]) }).passed).toBe(false)
  expect(judge('receipt', {}, { receipts: new Map() }).passed).toBe(false)
})

test('the start is told by the clock of the server, whatever the device’s said', () => {
  const step = { ...entry('a', 'clock'), clockAheadMs: 3_600_000, writtenAtEpochMs: 9_000_000 }
  expect(commissioningStart([step], 'c', null)).toBe(5_400_000)
  expect(commissioningStart([{ ...step, clockAheadMs: null }], 'c', -60_000)).toBe(9_060_000)
  expect(commissioningStart([{ ...step, clockAheadMs: null }], 'c', null)).toBe(9_000_000)
  expect(commissioningStart([step], 'another', null)).toBeNull()
})

test('a key is not taken for a network’s identity', () => {
  const radio = (networkIdentity: string) => judge('radio', { region: '868 MHz', networkIdentity }).passed
  expect(radio('quay network 3')).toBe(true)
  expect(radio('00 11 22 33 44 55 66 77 88 99 AA BB CC DD EE FF')).toBe(false)
  expect(radio('password: seagull')).toBe(false)
})

const entry = (
  id: string,
  step: string,
  outcome: 'done' | 'skipped' | 'not-passed' = 'done',
  follows: string[] = [],
) => ({
  id,
  follows,
  author: 'Field engineer',
  writtenAtEpochMs: 5,
  body: {
    kind: 'commissioning-step',
    logger: 'LG-05',
    commissioning: 'c',
    step,
    outcome,
    reason: outcome === 'skipped' ? 'No earth asked for.' : '',
    evidence: {},
  } as FieldBody,
})
const all = steps.map(({ id }) => entry(`e-${id}`, id, id === 'earth' ? 'skipped' : 'done'))
const standing = (entries: readonly ReturnType<typeof entry>[]) =>
  commissioningStanding('LG-05', 'c', steps, entries)
const signature = (ids: readonly string[]) => ({
  ...entry('s', ''),
  body: {
    kind: 'commissioning-signature',
    logger: 'LG-05',
    commissioning: 'c',
    entries: ids,
    statement: '',
  } as FieldBody,
})

test('open while a step is missing or did not pass, complete when all are done or skipped for a reason', () => {
  expect(standing(all.slice(1))).toMatchObject({
    status: 'open',
    sentences: [expect.stringMatching(/Clock/), expect.stringMatching(/Skipped: Earth/)],
  })
  expect(standing([...all.slice(1), entry('x', 'clock', 'not-passed')]).status).toBe('open')
  expect(standing(all).status).toBe('complete')
})

test('signed is what was signed: a step changed afterwards leaves it unsigned; two versions side by side open it', () => {
  const ids = all.map(({ id }) => id)
  expect(standing([...all, signature(ids)])).toMatchObject({ status: 'signed', signedBy: 'Field engineer' })
  const changed = [...all, signature(ids), entry('again', 'clock', 'done', ['e-clock'])]
  expect(standing(changed)).toMatchObject({ status: 'complete', signedBy: null })
  expect(standing(changed).sentences.at(-1)).toContain('sign again')
  const disputed = standing([...all, signature(ids), entry('other', 'clock')])
  expect(disputed.status).toBe('open')
  expect(disputed.steps[0]?.standing).toBe('disputed')
})
