import type { Chain, Step } from './read-records.ts'

/** Raw reading that a sensor with this chain gives at an engineering value. */
export type Inverse = (value: number, temperatureDegC: number, barometerKpa: number) => number

/**
 * Undoes a calibration, last step first. Written apart from the reduction on purpose: the sample's raw readings are
 * then an independent check of it.
 */
export function invertCalibration(chain: Chain): Inverse {
  const undo = chain.steps.map(undoStep).reverse()
  return (value, temperatureDegC, barometerKpa) => {
    let x = value
    for (const step of undo) x = step(x, temperatureDegC, barometerKpa)
    return x
  }
}

function undoStep(step: Step): Inverse {
  const of = (name: string) => {
    const value = step.numbers[name]
    if (value === undefined) throw new Error(`Step ${step.kind} lacks ${name}`)
    return value
  }
  switch (step.kind) {
    case 'period-to-frequency':
      return (hertz) => 1e6 / hertz
    case 'frequency-squared':
      return (squared) => Math.sqrt(squared * 1000)
    case 'linear': {
      const factor = of('factor')
      const offset = of('offset')
      return (y) => (y - offset) / factor
    }
    case 'polynomial': {
      const [c0, c1, c2] = [of('c0'), of('c1'), of('c2')]
      // The root on the falling branch below the vertex, in the form that does not cancel.
      return (y) => (2 * (c0 - y)) / (-c1 + Math.sqrt(c1 * c1 - 4 * c2 * (c0 - y)))
    }
    case 'steinhart-hart': {
      const [a, b, c] = [of('a'), of('b'), of('c')]
      return (degC) => {
        const half = (a - 1 / (degC + 273.15)) / c / 2
        const root = Math.sqrt((b / (3 * c)) ** 3 + half * half)
        return Math.exp(Math.cbrt(root - half) - Math.cbrt(root + half))
      }
    }
    case 'callendar-van-dusen': {
      const r0 = of('r0')
      return (degC) => {
        const cold = degC < 0 ? -4.183e-12 * (degC - 100) * degC ** 3 : 0
        return r0 * (1 + 3.9083e-3 * degC - 5.775e-7 * degC * degC + cold)
      }
    }
    case 'current-span': {
      const [low, high] = [of('low'), of('high')]
      return (y) => 4 + (16 * (y - low)) / (high - low)
    }
    case 'voltage-span': {
      const [lowVolts, highVolts, low, high] = [of('lowVolts'), of('highVolts'), of('low'), of('high')]
      return (y) => lowVolts + ((highVolts - lowVolts) * (y - low)) / (high - low)
    }
    case 'ratio-bridge': {
      const [zero, sensitivity, capacity] = [of('zero'), of('sensitivity'), of('capacity')]
      return (y) => zero + (y / capacity) * sensitivity
    }
    case 'thermal': {
      const [factor, reference] = [of('factor'), of('reference')]
      return (y, degC) => y - factor * (degC - reference)
    }
    case 'barometric': {
      const reference = of('reference')
      return (y, _, kpa) => y + (kpa - reference)
    }
    case 'zero': {
      const zero = of('value')
      return (y) => y + zero
    }
    case 'gauge-length-sine': {
      const length = of('length')
      return (millimetres) => (Math.asin(millimetres / (1000 * length)) * 180) / Math.PI
    }
    default:
      throw new Error(`Step ${step.kind} is not one that the sample's instruments use`)
  }
}
