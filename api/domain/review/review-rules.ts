import type { ReviewRule } from './evidence.ts'
import { byHand } from './rules/by-hand.ts'
import { delivery } from './rules/delivery.ts'
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

/** Every way in which a case is looked at. */
export const reviewRules: readonly ReviewRule[] = [
  sameQuantity,
  otherQuantity,
  byHand,
  drivenBySurroundings,
  shapeInTime,
  faceChecksum,
  foundBeside,
  exchangedChannels,
  recordsOfChange,
  worksAndDiary,
  otherChannels,
  delivery,
  ownChannel,
  loggerClock,
  loggerCells,
]
