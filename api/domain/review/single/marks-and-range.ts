import { markNote, marksOf, type ReadingCheck } from '../../flags/reading-checks.ts'
import type { Cause } from '../cause.ts'
import { type Evidence, type ReviewRule, speaks } from '../evidence.ts'
import { oddReading } from '../odd-reading.ts'
import { amountText, pictureOf } from '../wording.ts'

const id = 'marks-and-range'

/** What a mark says of causes. A mark of a spike or a rate repeats what the spike itself says, and so counts little. */
const speaksFor: Readonly<Partial<Record<ReadingCheck, readonly [Cause, number]>>> = {
  range: ['sensor', 8],
  'rate-of-change': ['sensor', 1],
  spike: ['sensor', 1],
  gap: ['logger', 3],
  clock: ['logger', 8],
  duplicate: ['logger', 4],
  temperature: ['sensor', 4],
}

/** Marks of the automatic checks, and the ends of the transducer's range. */
export const marksAndRange: ReviewRule = {
  id,
  title: 'Automatic checks and range',
  tells: ['reading'],
  reason:
    'A transducer cannot read beyond its range: a value there is a broken wire, a short or a wrong channel. The first reading after a gap and one at a wrong time are the logger’s.',
  source:
    'IOOS QARTOD, Manual for Real-Time Oceanographic Data Quality Control (2020), tests 4 to 8; from memory',
  weigh(reviewed) {
    const { reading, range, subject } = reviewed
    if (!reading) return []
    const found = marksOf(reading.flags).flatMap((mark): readonly Evidence[] => {
      const said = speaksFor[mark.check]
      if (!said || (mark.check === 'range' && range !== null)) return []
      const [cause, decibans] = said
      return [
        speaks(id, cause, mark.fails ? 1.5 * decibans : decibans, `Automatic check: ${markNote(mark)}.`, {
          picture: pictureOf(reviewed),
        }),
      ]
    })
    const odd = oddReading(reviewed)
    if (!odd || range === null) return found
    const { value } = odd
    const span = range.high - range.low
    const beyond = value < range.low || value > range.high
    const atEnd = value <= range.low + 0.01 * span || value >= range.high - 0.01 * span
    if (!atEnd) return found
    const sentence = `${amountText(value, subject.unit)} lies ${beyond ? 'beyond' : 'at'} the end of the transducer's range, ${amountText(range.low, '')} to ${amountText(range.high, subject.unit)}.`
    return [
      ...found,
      speaks(id, 'sensor', beyond ? 14 : 8, sentence, { picture: pictureOf(reviewed) }),
      ...(beyond ? [speaks(id, 'ground', -4, sentence, { picture: pictureOf(reviewed) })] : []),
    ]
  },
}
