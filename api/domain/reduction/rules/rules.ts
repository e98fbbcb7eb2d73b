import { combination } from './combination.ts'
import { cumulative } from './cumulative.ts'
import type { DerivedRule } from './derived-bundle.ts'
import { liquidColumn } from './liquid-column.ts'
import { mean } from './mean.ts'
import { resultant } from './resultant.ts'
import type { Rule } from './rule.ts'
import { structureLine } from './structure-line.ts'
import { thermalSplit } from './thermal-split.ts'
import { threeStuds } from './three-studs.ts'

const rules: { readonly [K in DerivedRule['kind']]: Rule<Extract<DerivedRule, { kind: K }>> } = {
  mean,
  cumulative,
  combination,
  resultant,
  'thermal-split': thermalSplit,
  'structure-line': structureLine,
  'three-studs': threeStuds,
  'liquid-column': liquidColumn,
}

/** The rule that a bundle states. */
export const ruleOf = ({ kind }: DerivedRule): Rule<DerivedRule> =>
  rules[kind] as unknown as Rule<DerivedRule>
