import type { StepKind } from '../site/vocabulary.ts'
import type { Step } from './step.ts'
import { barometric } from './steps/barometric.ts'
import { beta } from './steps/beta.ts'
import { callendarVanDusen } from './steps/callendar-van-dusen.ts'
import { currentSpan } from './steps/current-span.ts'
import { frequencySquared } from './steps/frequency-squared.ts'
import { fullBridge } from './steps/full-bridge.ts'
import { gaugeLengthSine } from './steps/gauge-length-sine.ts'
import { linear } from './steps/linear.ts'
import { periodToFrequency } from './steps/period-to-frequency.ts'
import { polynomial } from './steps/polynomial.ts'
import { potentiometer } from './steps/potentiometer.ts'
import { quarterBridge } from './steps/quarter-bridge.ts'
import { rainCounter } from './steps/rain-counter.ts'
import { ratioBridge } from './steps/ratio-bridge.ts'
import { shunt } from './steps/shunt.ts'
import { sineToTilt } from './steps/sine-to-tilt.ts'
import { steinhartHart } from './steps/steinhart-hart.ts'
import { strainTemperature } from './steps/strain-temperature.ts'
import { thermal } from './steps/thermal.ts'
import { tiltToSine } from './steps/tilt-to-sine.ts'
import { unit } from './steps/unit.ts'
import { voltageSpan } from './steps/voltage-span.ts'
import { wireStrain } from './steps/wire-strain.ts'
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
  beta,
  'wire-strain': wireStrain,
  'strain-temperature': strainTemperature,
  'quarter-bridge': quarterBridge,
  'full-bridge': fullBridge,
  potentiometer,
  shunt,
  'rain-counter': rainCounter,
  'sine-to-tilt': sineToTilt,
  'tilt-to-sine': tiltToSine,
}
