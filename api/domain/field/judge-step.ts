import type { CommissioningStep } from './commissioning-steps.ts'
import type { Evidence } from './field-bodies.ts'

/** What a step is held against beside its own evidence. */
export interface StepSurroundings {
  readonly logger: string
  readonly startedAtEpochMs: number
  /** Engineering value of a raw reading of this step's channel; null where it has none. Left out for other steps. */
  readonly reduce?: (raw: number) => number | null
  /** Engineering unit of the channel. */
  readonly unit?: string
  /** Numbers of coverage tests known at the site, with whether the trade's rule accepts them; null: result not known yet. */
  readonly coverageTests: ReadonlyMap<string, boolean | null>
  /** Latest reading of each channel that the server has, by channel. */
  readonly receivedAtEpochMs: ReadonlyMap<string, number | null>
}

export interface StepJudgement {
  readonly passed: boolean
  /** Why not, or what must be said although it passed. */
  readonly sentences: readonly string[]
}

/** A clock set by hand against a good one is within this; common practice, no published source. */
const clockToleranceSeconds = 2
/** 40 parts in a million, more than a crystal clock should drift; common practice, no published source. */
const greatDriftSecondsPerDay = 3.5

/** Whether the evidence of a step bears it out. A flag not set, a field left empty or a value out of place does not pass. */
export function judgeStep(
  step: CommissioningStep,
  evidence: Evidence,
  around: StepSurroundings,
): StepJudgement {
  const against: string[] = step.fields.flatMap(({ name, label, kind, optional }) => {
    const value = evidence[name] ?? null
    if (kind === 'flag') return value === true ? [] : [`Not confirmed: ${label.toLowerCase()}.`]
    return value === null || value === '' ? (optional ? [] : [`Missing: ${label.toLowerCase()}.`]) : []
  })
  const remarks: string[] = []
  if (against.length > 0) return { passed: false, sentences: against }
  if (step.id.startsWith('channel:')) judgeChannel(evidence, around, against, remarks)
  else judgeContent(step, evidence, around, against, remarks)
  return { passed: against.length === 0, sentences: [...against, ...remarks] }
}

function judgeContent(
  step: CommissioningStep,
  evidence: Evidence,
  around: StepSurroundings,
  against: string[],
  remarks: string[],
): void {
  const value = (name: string) => Number(evidence[name])
  const said = (name: string) => String(evidence[name] ?? '').trim()
  switch (step.id) {
    case 'clock': {
      if (Math.abs(value('leftAheadSeconds')) > clockToleranceSeconds)
        against.push(
          `The clock was left ${value('leftAheadSeconds')} s off; set it to within ${clockToleranceSeconds} s.`,
        )
      const days = evidence.daysSinceSet === null ? Number.NaN : value('daysSinceSet')
      const drift = value('foundAheadSeconds') / days
      if (days > 0 && Math.abs(drift) > greatDriftSecondsPerDay)
        remarks.push(
          `It drifts ${drift.toFixed(1)} s a day: more than a crystal should. Replace the logger, or set its clock often.`,
        )
      break
    }
    case 'batteries':
      if (value('loadVolts') < value('leastVolts'))
        against.push(
          `${value('loadVolts')} V under load is below the ${value('leastVolts')} V allowed. Change the cells.`,
        )
      if (!(value('cells') >= 1)) against.push('No cell is put in.')
      break
    case 'interval':
      if (!(value('intervalMinutes') > 0)) against.push('The interval must be longer than nothing.')
      break
    case 'radio':
      if ([said('region'), said('networkIdentity')].some(looksLikeKey))
        against.push(
          'This looks like a key. Keys and passwords are never written here: note the network’s identity only.',
        )
      break
    case 'coverage': {
      const accepted = around.coverageTests.get(said('test'))
      if (accepted === undefined) against.push(`No coverage test ${said('test')} is known on this device.`)
      else if (accepted === null)
        against.push(`The result of coverage test ${said('test')} is not known yet.`)
      else if (!accepted)
        against.push(`Coverage test ${said('test')} was not accepted: move the antenna or the gateway.`)
      break
    }
    case 'names':
      if (said('nameOnLogger') !== around.logger)
        against.push(
          `The logger says ${said('nameOnLogger')}, the records say ${around.logger}. One of them is wrong.`,
        )
      break
    case 'receipt': {
      const silent = [...around.receivedAtEpochMs].filter(
        ([, at]) => at === null || at < around.startedAtEpochMs,
      )
      if (around.receivedAtEpochMs.size === 0) against.push('No channel is wired: nothing can arrive.')
      else if (silent.length > 0)
        against.push(
          `Nothing newer than the start of this work has arrived from channel ${silent.map(([channel]) => channel).join(', ')}.`,
        )
      break
    }
  }
}

function judgeChannel(
  evidence: Evidence,
  { reduce, unit = '' }: StepSurroundings,
  against: string[],
  remarks: string[],
): void {
  const [reading, disturbed] = [Number(evidence.reading), Number(evidence.readingDisturbed)]
  const engineering = reduce?.(reading) ?? null
  const predicted =
    typeof evidence.predictedLow === 'number' && typeof evidence.predictedHigh === 'number'
      ? { low: evidence.predictedLow, high: evidence.predictedHigh }
      : null
  if (engineering === null)
    against.push(
      'The test reading has no engineering value: no calibration, or not a reading of this sensor.',
    )
  else if (predicted === null)
    remarks.push('No value was predicted for this channel: the test reading was held against nothing.')
  else if (engineering < predicted.low || engineering > predicted.high)
    against.push(
      `The test reading is ${engineering.toPrecision(4)} ${unit}; ${predicted.low} to ${predicted.high} ${unit} was predicted.`,
    )
  const rose = disturbed > reading
  if (disturbed === reading) against.push('The channel did not move when its sensor was disturbed.')
  else if (rose !== (evidence.shouldMove === 'rise'))
    against.push(
      `The reading ${rose ? 'rose' : 'fell'} where it should ${String(evidence.shouldMove)}: sign or wiring is the wrong way round.`,
    )
}

/** 16 or more hexadecimal digits in a row, with or without separators. */
const looksLikeKey = (text: string) =>
  /^(?:[0-9a-f]{2}[\s:-]?){16,}$/i.test(text) || /pass(word|phrase)|key\s*[:=]/i.test(text)
