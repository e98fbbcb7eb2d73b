import type { StepKind } from '../site/vocabulary.ts'
import type { Step } from './step.ts'
import { barometric } from './steps/barometric.ts'
import { callendarVanDusen } from './steps/callendar-van-dusen.ts'
import { currentSpan } from './steps/current-span.ts'
import { frequencySquared } from './steps/frequency-squared.ts'
import { gaugeLengthSine } from './steps/gauge-length-sine.ts'
import { linear } from './steps/linear.ts'
import { periodToFrequency } from './steps/period-to-frequency.ts'
import { polynomial } from './steps/polynomial.ts'
import { ratioBridge } from './steps/ratio-bridge.ts'
import { steinhartHart } from './steps/steinhart-hart.ts'
import { thermal } from './steps/thermal.ts'
import { unit } from './steps/unit.ts'
import { voltageSpan } from './steps/voltage-span.ts'
import { zero } from './steps/zero.ts'

/** Every kind of reduction step. */
export const steps: Readonly<Record<StepKind, Step>> = {
  'period-to-frequency': periodToFrequency,
  'frequency-squared': frequencySquared,
  linear,
  polynomial,
  'steinhart-hart': steinhartHart,
  'callendar-van-dusen': callendarVanDusen,
  'current-span': currentSpan,
  'voltage-span': voltageSpan,
  'ratio-bridge': ratioBridge,
  thermal,
  barometric,
  zero,
  'gauge-length-sine': gaugeLengthSine,
  unit,
}
