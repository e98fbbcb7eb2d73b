import type { Measure } from '../site/vocabulary.ts'
import type { CalibrationStep } from './chain.ts'

/** What a pressure sensor is against the air; `not-stated`: the record of the sensor does not say. */
export type Venting = 'vented' | 'sealed' | 'not-stated'

export interface VentingRemark {
  readonly sentence: string
  /** True of a sealed sensor from whose values no air pressure is taken. */
  readonly airStandsInValues: boolean
}

/** Venting of a sensor; null where the question has no sense: it feels no pressure, or the air's is what it measures. */
export function ventingOf(sensor: {
  readonly measure: Measure
  readonly venting?: 'vented' | 'sealed' | null
}): Venting | null {
  if (sensor.measure === 'barometric-pressure') return null
  if (sensor.venting) return sensor.venting
  return sensor.measure === 'pore-pressure' || sensor.measure === 'liquid-pressure' ? 'not-stated' : null
}

/**
 * What the venting of a pressure sensor and the steps of its calibration say together about air pressure. Size: 1 hPa
 * is 0.1 kPa by definition, and 10.2 mm of water at 9.81 kN/m³.
 */
export function ventingRemark(venting: Venting, steps: readonly CalibrationStep[]): VentingRemark {
  const takenOut = steps.some(({ kind }) => kind === 'barometric')
  return {
    sentence: takenOut ? takenOutSentences[venting] : leftInSentences[venting],
    airStandsInValues: venting === 'sealed' && !takenOut,
  }
}

const size = '1 hPa of air is 0.1 kPa, about 10 mm of water'

const takenOutSentences: Readonly<Record<Venting, string>> = {
  vented:
    'Vented to the air, yet its calibration takes changes of air pressure out: they are corrected twice. Take the term out, or correct the venting.',
  sealed: 'Sealed from the air; its calibration takes changes of air pressure out.',
  'not-stated':
    'Whether it is vented or sealed is not on record; its calibration takes changes of air pressure out, as a sealed sensor needs.',
}

const leftInSentences: Readonly<Record<Venting, string>> = {
  vented: 'Vented to the air: changes of air pressure cancel in it, and none are taken out.',
  sealed: `Sealed, and its calibration has no barometric term: it reads absolute pressure, and the air's changes stand in its values (${size}). Read them beside the barometer, or enter a calibration with a barometric term.`,
  'not-stated': `Whether it is vented or sealed is not on record, and its calibration has no barometric term: if it is sealed, the air's changes stand in its values (${size}).`,
}
