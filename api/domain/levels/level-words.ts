import { quantityText } from '../reduction/number-text.ts'
import type { TriggerLevel } from '../site/tables.ts'
import { valueToLeave } from './judge.ts'
import { membersOf, watchedBy } from './watched-by.ts'

/** What a level says, in words. */
export interface LevelWords {
  /** When it is reached: "22 mm or more for 3 readings and 60 min". */
  readonly reached: string
  /** When it is left again: "left below 19.8 mm"; null for what time or other levels decide. */
  readonly left: string | null
}

/**
 * A level in words. `unit` is that of its series; `instantText` writes an instant for the reader. The unit of a rate is
 * that a day, of silence minutes, and a combination has none.
 */
export function levelWords(
  level: TriggerLevel,
  unit: string,
  instantText: (epochMs: number) => string,
): LevelWords {
  const kind = watchedBy(level)
  if (kind === 'silence')
    return {
      reached: `no reading for more than ${lengthText(level.value)}`,
      left: level.holdMinutes
        ? `left once readings have come again for ${lengthText(level.holdMinutes)}`
        : 'left with a reading',
    }
  if (kind === 'combination') {
    const members = membersOf(level)
    const how = (level.needed ?? members.length) === members.length ? 'all' : `${level.needed}`
    return { reached: `${how} of these held at once: ${members.join(', ')}`, left: null }
  }
  const quantity = (value: number) => watchedQuantity(level, value, unit)
  const leave = quantity(valueToLeave(level, level.hysteresisShare ?? 0))
  const size = quantity(level.value)
  const what = {
    value: '',
    change: `change since ${instantText(level.changeSince ?? level.validFrom)}: `,
    rate: `rate over ${lengthText(level.windowMinutes ?? 0)}: `,
    difference: `less ${level.against ?? ''}, read at most ${lengthText(level.windowMinutes ?? 0)} before: `,
  }[kind]
  const side = {
    above: { reached: `${size} or more`, left: `left below ${leave}` },
    below: { reached: `${size} or less`, left: `left above ${leave}` },
    either: {
      reached: `${quantity(Math.abs(level.value))} or more either way`,
      left: `left within ${quantity(Math.abs(valueToLeave(level, level.hysteresisShare ?? 0)))} either way`,
    },
  }[level.direction]
  return { reached: `${what}${side.reached}${holdText(level)}`, left: `${side.left}${holdText(level)}` }
}

/** A number of what a level watches, with its unit: of a rate that a day, of silence its length, of a combination levels. */
export function watchedQuantity(level: Pick<TriggerLevel, 'watches'>, value: number, unit: string): string {
  switch (watchedBy(level)) {
    case 'silence':
      return lengthText(Math.round(value))
    case 'combination':
      return `${value} of its levels`
    case 'rate':
      return `${quantityText(rounded(value), unit)} a day`
    default:
      return quantityText(rounded(value), unit)
  }
}

/** How long it must stand, with a space before; empty where the first reading counts. */
function holdText({ holdReadings, holdMinutes, longestGapMinutes }: TriggerLevel): string {
  const parts = [
    ...(holdReadings != null && holdReadings > 1 ? [`${holdReadings} readings`] : []),
    ...(holdMinutes ? [lengthText(holdMinutes)] : []),
  ]
  if (parts.length === 0) return ''
  const apart = longestGapMinutes == null ? '' : ` no more than ${lengthText(longestGapMinutes)} apart`
  return ` for ${parts.join(' and ')}${apart}`
}

/** Minutes as people say them: whole days or hours where they are, up to 90 minutes as minutes. */
export function lengthText(minutes: number): string {
  if (minutes >= 1440 && minutes % 1440 === 0) return `${minutes / 1440} d`
  if (minutes > 90 && minutes % 60 === 0) return `${minutes / 60} h`
  return `${minutes} min`
}

const rounded = (value: number): number => Number(value.toPrecision(6))
