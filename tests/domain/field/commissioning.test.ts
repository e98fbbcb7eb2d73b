import { expect, test } from 'vitest'
import { commissioningStanding } from '#domain/field/commissioning-standing.ts'
import { commissioningSteps } from '#domain/field/commissioning-steps.ts'
import type { Evidence, FieldBody } from '#domain/field/field-bodies.ts'
import { judgeStep, type StepSurroundings } from '#domain/field/judge-step.ts'

const steps = commissioningSteps([
  { channel: '3', sensor: 'PZ-05C/pore-pressure', rawUnit: 'mA', unit: 'kPa' },
])
const stepOf = (id: string) => steps.find((step) => step.id === id) as (typeof steps)[number]
const around: StepSurroundings = {
  logger: 'LG-05',
  startedAtEpochMs: 1000,
  reduce: (raw) => (raw >= 3.6 ? (raw - 4) * 20 : null),
  unit: 'kPa',
  coverageTests: new Map([
    ['CT-1', true],
    ['CT-2', false],
    ['CT-3', null],
  ]),
  receivedAtEpochMs: new Map([['3', 2000]]),
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
  expect(judge('channel:3', { ...channel, predictedLow: null })).toMatchObject({
    passed: true,
    sentences: [expect.stringMatching(/held against nothing/)],
  })
  expect(judge('channel:3', { ...channel, reading: 2 }).passed).toBe(false)
})

test('clock, cells, names, coverage and receipt are held against what they must be', () => {
  const clock = { foundAheadSeconds: 41, daysSinceSet: 1, leftAheadSeconds: 0 }
  expect(judge('clock', clock)).toMatchObject({
    passed: true,
    sentences: [expect.stringMatching(/41.0 s a day/)],
  })
  expect(judge('clock', { ...clock, leftAheadSeconds: 30 }).passed).toBe(false)
  expect(judge('batteries', { cells: 4, restVolts: 3.6, loadVolts: 3.1, leastVolts: 3.3 }).passed).toBe(false)
  expect(judge('names', { nameOnLogger: 'LG-06', cablesNamed: true }).passed).toBe(false)
  expect(judge('coverage', { test: 'CT-1' }).passed).toBe(true)
  for (const test of ['CT-2', 'CT-3', 'CT-4']) expect(judge('coverage', { test }).passed).toBe(false)
  expect(judge('receipt', {}).passed).toBe(true)
  expect(judge('receipt', {}, { receivedAtEpochMs: new Map([['3', 999]]) }).passed).toBe(false)
  expect(judge('receipt', {}, { receivedAtEpochMs: new Map() }).passed).toBe(false)
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
