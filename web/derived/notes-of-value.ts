import type { SeriesState } from '#contract/state-document.ts'
import { markNote, marksOf } from '#domain/flags/reading-checks.ts'
import { quality } from '#domain/reduction/quality.ts'

const words: readonly (readonly [bit: number, text: string])[] = [
  [quality.barometerMissing, 'no barometer reading near enough'],
  [quality.temperatureMissing, 'without its thermal term'],
  [quality.outOfRange, "outside the sensor's range"],
  [quality.receivedLate, 'received late'],
  [quality.noCalibration, 'no calibration valid then'],
  [quality.notComputable, 'the reading has no engineering value'],
  [quality.sensorFault, 'a fault of the sensor, its cable or its loop'],
  [quality.incomplete, 'made from fewer members than it should be'],
]

/** Quality bits in words. */
export const qualityNotes = (bits: number): string[] =>
  words.filter(([bit]) => (bits & bit) !== 0).map(([, text]) => text)

/** Without these bits a value stands; with one of them there is none. */
const withoutValue =
  quality.barometerMissing + quality.noCalibration + quality.notComputable + quality.sensorFault

/**
 * What must be said beside the last value of a series, on the screen and on paper: what it was made without, and what the
 * automatic checks noticed. In the past it is told of all of its hour or day. That it came late is told by other words.
 */
export function notesOfLast(state: Pick<SeriesState, 'value' | 'quality' | 'flags'> | undefined): string[] {
  if (!state) return []
  // Another reading of its hour may have given no value; this one did.
  const bits = state.value === null ? state.quality : state.quality & ~withoutValue
  return [...qualityNotes(bits & ~quality.receivedLate), ...marksOf(state.flags).map(markNote)]
}
