import { type ReviewRule, speaks } from '../evidence.ts'
import { oddReading } from '../odd-reading.ts'
import { pictureOf } from '../wording.ts'

const id = 'people-at-it'
const reachMetres = 3
const withinMs = 12 * 3_600_000
const oddSigmas = 4

/** Whether somebody was at the instrument when the reading was taken. */
export const peopleAtIt: ReviewRule = {
  id,
  title: 'Somebody at the instrument',
  tells: ['reading'],
  reason:
    'A sensor that is lifted, flushed, plugged or leant on while it reads gives one odd reading and comes back.',
  source: null,
  weigh(reviewed) {
    const odd = oddReading(reviewed)
    if (!odd || odd.sigmas < oddSigmas || odd.after === 'stays') return []
    const note = reviewed.notes.find(
      ({ kind, distanceMetres, atEpochMs }) =>
        (kind === 'visit' || kind === 'damage' || kind === 'wiring') &&
        distanceMetres !== null &&
        distanceMetres <= reachMetres &&
        Math.abs(atEpochMs - odd.atEpochMs) <= withinMs,
    )
    return note
      ? [
          speaks(id, 'sensor', 8, `Within 12 h of it: ${note.text} (${note.kind}, at it).`, {
            picture: pictureOf(reviewed),
          }),
        ]
      : []
  },
}
