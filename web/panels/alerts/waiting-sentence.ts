/** How many alerts nobody has taken up. */
export const waitingSentence = (waiting: number): string =>
  waiting === 0
    ? 'Every alert has been taken up by somebody'
    : waiting === 1
      ? '1 alert needs somebody: nobody has taken it up'
      : `${waiting} alerts need somebody: nobody has taken them up`
