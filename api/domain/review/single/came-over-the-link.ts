import { type ReviewRule, speaks } from '../evidence.ts'

/** What a link can and cannot do to one reading. */
export const cameOverTheLink: ReviewRule = {
  id: 'came-over-the-link',
  title: 'What the link can do',
  tells: ['reading'],
  reason:
    'Packets carry a check sum: a link loses or delays readings, and hardly ever alters one that arrives. A single odd value is not its doing.',
  source: null,
  weigh: ({ reading }) =>
    reading
      ? [
          speaks(
            'came-over-the-link',
            'radio',
            -8,
            reading.byHand
              ? 'It was read by hand and came over no link.'
              : 'It arrived: a link loses readings and hardly ever alters one.',
          ),
        ]
      : [],
}
