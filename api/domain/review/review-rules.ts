import type { ReviewRule } from './evidence.ts'
import { byHand } from './rules/by-hand.ts'
import { delivery } from './rules/delivery.ts'
import { drivenByRain } from './rules/driven-by-rain.ts'
import { drivenBySurroundings } from './rules/driven-by-surroundings.ts'
import { exchangedChannels } from './rules/exchanged-channels.ts'
import { faceChecksum } from './rules/face-checksum.ts'
import { foundBeside } from './rules/found-beside.ts'
import { loggerCells } from './rules/logger-cells.ts'
import { loggerClock } from './rules/logger-clock.ts'
import { otherChannels } from './rules/other-channels.ts'
import { otherQuantity } from './rules/other-quantity.ts'
import { ownChannel } from './rules/own-channel.ts'
import { recordsOfChange } from './rules/records-of-change.ts'
import { sameQuantity } from './rules/same-quantity.ts'
import { shapeInTime } from './rules/shape-in-time.ts'
import { worksAndDiary } from './rules/works-and-diary.ts'
import { worksPrediction } from './rules/works-prediction.ts'
import { atTheSameInstant } from './single/at-the-same-instant.ts'
import { cameOverTheLink } from './single/came-over-the-link.ts'
import { channelsAtOnce } from './single/channels-at-once.ts'
import { marksAndRange } from './single/marks-and-range.ts'
import { peopleAtIt } from './single/people-at-it.ts'
import { readAgain } from './single/read-again.ts'
import { spikeOrNoise } from './single/spike-or-noise.ts'
import { weatherAtOnce } from './single/weather-at-once.ts'
import { writtenDown } from './single/written-down.ts'

/** Every way in which a case is looked at. */
export const reviewRules: readonly ReviewRule[] = [
  sameQuantity,
  otherQuantity,
  byHand,
  drivenBySurroundings,
  drivenByRain,
  shapeInTime,
  faceChecksum,
  foundBeside,
  exchangedChannels,
  recordsOfChange,
  worksAndDiary,
  worksPrediction,
  otherChannels,
  delivery,
  ownChannel,
  loggerClock,
  loggerCells,
  spikeOrNoise,
  atTheSameInstant,
  channelsAtOnce,
  weatherAtOnce,
  marksAndRange,
  readAgain,
  writtenDown,
  peopleAtIt,
  cameOverTheLink,
]
