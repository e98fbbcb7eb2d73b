import type { TriggerLevel } from '../site/tables.ts'
import { unitSymbol } from '../units.ts'
import { watchedBy } from './watched-by.ts'

/** The unit of a level's value as people write it; `unit` is that of its series. */
export function unitOfLevel(level: Pick<TriggerLevel, 'watches'>, unit: string): string {
  switch (watchedBy(level)) {
    case 'silence':
      return 'min'
    case 'combination':
      return 'levels'
    case 'rate':
      return `${unitSymbol(unit)} a day`
    default:
      return unitSymbol(unit)
  }
}
