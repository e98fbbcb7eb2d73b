/** A level as a share of a predicted value, in its unit and sign: 0.75 of a predicted settlement of 24 mm is 18 mm. */
export const levelOfPrediction = (predicted: number, share: number): number => predicted * share
