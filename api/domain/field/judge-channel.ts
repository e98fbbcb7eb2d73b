import type { Evidence } from './field-bodies.ts'
import type { ChannelSurroundings, Findings } from './step-surroundings.ts'

/** A change of fewer steps of the last decimal is told from noise by nobody; common practice, no published source. */
const leastSteps = 5
/** And one of fewer standard uncertainties, where they are known; common practice, no published source. */
const leastUncertainties = 3

/**
 * Whether a channel is proved: its test reading is as predicted, and disturbing its sensor moved it the right way and
 * by more than noise. Where nothing was predicted it must be said what the reading was held against.
 */
export function judgeChannel(evidence: Evidence, around: ChannelSurroundings | undefined): Findings {
  const [reading, disturbed] = [Number(evidence.reading), Number(evidence.readingDisturbed)]
  const engineering = around?.reduce(reading) ?? null
  if (around === undefined || engineering === null)
    return {
      against: [
        'The test reading has no engineering value: no calibration, or not a reading of this sensor.',
      ],
      remarks: [],
    }
  const held = heldAgainst(evidence, engineering, around.unit)
  return {
    against: [...held.against, ...movement(evidence, reading, disturbed, around)],
    remarks: held.remarks,
  }
}

function heldAgainst(evidence: Evidence, engineering: number, unit: string): Findings {
  const { predictedLow: low, predictedHigh: high } = evidence
  if (typeof low === 'number' && typeof high === 'number')
    return {
      against:
        engineering < low || engineering > high
          ? [
              `The test reading is ${engineering.toPrecision(4)} ${unit}; ${low} to ${high} ${unit} was predicted.`,
            ]
          : [],
      remarks: [],
    }
  const said = String(evidence.heldAgainst ?? '').trim()
  return said === ''
    ? {
        against: ['No value was predicted for this channel: say what the test reading was held against.'],
        remarks: [],
      }
    : {
        against: [],
        remarks: [`No value was predicted for this channel: the test reading was held against ${said}.`],
      }
}

function movement(
  evidence: Evidence,
  reading: number,
  disturbed: number,
  { reduce, unit, decimals, standardUncertainty }: ChannelSurroundings,
): readonly string[] {
  if (disturbed === reading) return ['The channel did not move when its sensor was disturbed.']
  const rose = disturbed > reading
  if (rose !== (evidence.shouldMove === 'rise'))
    return [
      `The reading ${rose ? 'rose' : 'fell'} where it should ${String(evidence.shouldMove)}: sign or wiring is the wrong way round.`,
    ]
  const [before, after] = [reduce(reading), reduce(disturbed)]
  if (before === null || after === null)
    return ['The reading while disturbed has no engineering value: disturb the sensor within its range.']
  const moved = Math.abs(after - before)
  const least = Math.max(leastSteps * 10 ** -decimals, leastUncertainties * (standardUncertainty ?? 0))
  // A change of just so many steps must not fall short of them by its last bit.
  if (moved >= least * (1 - 1e-9)) return []
  return [
    `The reading moved by ${moved.toFixed(decimals + 1)} ${unit} only: not told from noise; disturb it more, to ${least.toFixed(decimals)} ${unit} at least (${leastSteps} steps of its last decimal, ${leastUncertainties} times its standard uncertainty: common practice, no published source).`,
  ]
}
