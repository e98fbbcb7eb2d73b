import { type Evidence, speaks } from '../evidence.ts'
import type { ReviewCase } from '../review-case.ts'
import { pictureOf } from '../wording.ts'

/** A shape that readings have by themselves: it speaks for the sensor. */
export const speaksOfShape = (
  reviewed: ReviewCase,
  decibans: number,
  sentence: string,
): readonly Evidence[] => [
  speaks('shape-in-time', 'sensor', decibans, sentence, { picture: pictureOf(reviewed) }),
]
