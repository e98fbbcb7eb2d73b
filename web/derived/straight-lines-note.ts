/** What an error of straight lines between points holds, and what not; nothing for other methods. */
export const straightLinesNote = (drawnBy: string, ...more: readonly string[]): readonly string[] =>
  drawnBy.startsWith('straight lines')
    ? [
        "By straight lines the error is that of the points' own readings alone: how the ground bends between them is not in it, so it is told too small.",
        ...more,
      ]
    : []
