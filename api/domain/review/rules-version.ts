/**
 * Names the rules and weights by which evidence is weighed; kept with what was concluded from it. It changes with every
 * change of a rule or a weight: `rules-version.test.ts` compares what the rules find with what they found under this name.
 */
export const rulesVersion = '2026-11-26'
