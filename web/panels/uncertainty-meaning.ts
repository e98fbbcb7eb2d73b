import { withUnit } from '../ui/format-value.ts'

/** What a standard uncertainty says of a value, and what twice it says (JCGM 100, 6.2 and G.1.3: near-Gaussian). */
export function meaningOfUncertainty(standardUncertainty: number, unit: string): string {
  const [one, two] = [standardUncertainty, 2 * standardUncertainty].map((width) =>
    withUnit(String(Number(width.toPrecision(2))), unit),
  )
  return `A standard uncertainty is one standard deviation of what the value may be: the true one lies within ± ${one} of it with a probability of about 68 %, and within twice that, ± ${two}, with about 95 %, so far as every cause is in it.`
}
