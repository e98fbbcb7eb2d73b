import type { Check } from './check.ts'
import { clock } from './checks/clock.ts'
import { duplicate } from './checks/duplicate.ts'
import { gap } from './checks/gap.ts'
import { range } from './checks/range.ts'
import { rateOfChange } from './checks/rate-of-change.ts'
import { spike } from './checks/spike.ts'
import { stuckValue } from './checks/stuck-value.ts'
import { temperature } from './checks/temperature.ts'
import type { ReadingCheck } from './reading-checks.ts'

/** Every check, by its name. */
export const checks: Readonly<Record<ReadingCheck, Check>> = {
  range,
  'rate-of-change': rateOfChange,
  spike,
  'stuck-value': stuckValue,
  gap,
  clock,
  duplicate,
  temperature,
}
