import { lacks, type ReviewRule } from '../evidence.ts'
import { dayText, pictureOf } from '../wording.ts'

const id = 'found-beside'

/** What people found about the readings that it is held against. */
export const foundBeside: ReviewRule = {
  id,
  title: 'Verdicts on what it is held against',
  tells: ['value'],
  reason:
    'Readings that somebody rejected can neither bear this one out nor speak against it; of ones that are doubtful it is not known.',
  source: null,
  weigh: (reviewed) =>
    reviewed.foundBeside.map(({ series, verdict, fromEpochMs, author }) => {
      const since = `${series} was found ${verdict} by ${author} from ${dayText(reviewed, fromEpochMs)} on`
      return lacks(
        id,
        'ground',
        verdict === 'rejected'
          ? `${since}: those readings are not held against this one.`
          : `${since}: what rests on it is in doubt as well.`,
        pictureOf(reviewed, { series }),
      )
    }),
}
