import { counting } from '../state/counted.ts'
import { isAtPresent } from '../state/site-clock.ts'

/**
 * Where only what was known then is to count at a past clock, what a view says that cannot leave out what came later; else
 * nothing. So nobody holds it against a plan that does.
 */
export const asMeasured = (): readonly string[] =>
  counting() === 'known' && !isAtPresent()
    ? ['Drawn as measured, including what came later: not as known then, as the plan’s states are.']
    : []
