import { type ReviewRule, speaks } from '../evidence.ts'
import { pictureOf } from '../wording.ts'

/** What a link can and cannot do to one reading. */
export const cameOverTheLink: ReviewRule = {
  id: 'came-over-the-link',
  title: 'What the link can do',
  tells: ['reading'],
  reason:
    'Packets carry a check sum: a link loses or delays readings, and hardly ever alters one that arrives. A single odd value is not its doing.',
  source: null,
  weigh: (reviewed) =>
    reviewed.reading
      ? [
          speaks(
            'came-over-the-link',
            'radio',
            -8,
            reviewed.reading.byHand
              ? 'It was read by hand and came over no link.'
              : 'It arrived: a link loses readings and hardly ever alters one.',
            { picture: pictureOf(reviewed) },
          ),
        ]
      : [],
}
