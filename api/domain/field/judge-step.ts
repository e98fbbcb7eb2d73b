import type { CommissioningStep } from './commissioning-steps.ts'
import type { Evidence } from './field-bodies.ts'
import { judgeChannel } from './judge-channel.ts'
import { judgeCoverageStep } from './judge-coverage-step.ts'
import { judgeReceipt } from './judge-receipt.ts'
import type { Findings, StepSurroundings } from './step-surroundings.ts'

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
  if (against.length > 0) return { passed: false, sentences: against }
  const found = findingsOf(step, evidence, around)
  return { passed: found.against.length === 0, sentences: [...found.against, ...found.remarks] }
}

function findingsOf(step: CommissioningStep, evidence: Evidence, around: StepSurroundings): Findings {
  if (step.id.startsWith('channel:')) return judgeChannel(evidence, around.channel)
  if (step.id === 'coverage') return judgeCoverageStep(String(evidence.test ?? '').trim(), around)
  if (step.id === 'receipt') return judgeReceipt(around)
  return judgeContent(step, evidence, around)
}

function judgeContent(step: CommissioningStep, evidence: Evidence, around: StepSurroundings): Findings {
  const [against, remarks]: [string[], string[]] = [[], []]
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
    case 'interval': {
      const wired = around.shortestIntervalMinutes
      if (!(value('intervalMinutes') > 0)) against.push('The interval must be longer than nothing.')
      else if (wired === null)
        remarks.push('No sensor is wired to this logger: its interval was held against nothing.')
      else if (value('intervalMinutes') !== wired)
        against.push(
          `The logger reads every ${value('intervalMinutes')} min; ${wired} min is the shortest interval on record of what is wired to it. Set the logger, or have the record put right.`,
        )
      break
    }
    case 'radio':
      if ([said('region'), said('networkIdentity')].some(looksLikeKey))
        against.push(
          'This looks like a key. Keys and passwords are never written here: note the network’s identity only.',
        )
      break
    case 'names':
      if (said('nameOnLogger') !== around.logger)
        against.push(
          `The logger says ${said('nameOnLogger')}, the records say ${around.logger}. One of them is wrong.`,
        )
      break
  }
  return { against, remarks }
}

/** 16 or more hexadecimal digits in a row, with or without separators. */
const looksLikeKey = (text: string) =>
  /^(?:[0-9a-f]{2}[\s:-]?){16,}$/i.test(text) || /pass(word|phrase)|key\s*[:=]/i.test(text)
