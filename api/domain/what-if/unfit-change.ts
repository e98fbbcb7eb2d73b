import { accept, type Outcome } from '../outcome.ts'
import { furthestClockSeconds, furthestClockSecondsPerDay } from '../reduction/clock-limits.ts'
import { refuse } from './edit-links.ts'
import type { SandboxChange } from './sandbox-change.ts'

/** Refuses a change whose own fields mean nothing, whatever it is made to. */
export function unfitChange(change: SandboxChange): Outcome<SandboxChange> {
  if (change.series === '') return refuse('series', 'series-missing', 'Choose the series that is changed.')
  if (!Number.isFinite(change.fromEpochMs))
    return refuse('from', 'instant-missing', 'Give the instant from which the change holds.')
  if (change.untilEpochMs !== null && !(change.untilEpochMs > change.fromEpochMs))
    return refuse(
      'until',
      'until-before-from',
      'The change ends before it begins. Give a later end, or none.',
    )
  for (const [field, value] of numbersOf(change))
    if (!Number.isFinite(value))
      return refuse(
        field,
        'number-missing',
        'A number is needed here; it is empty or cannot be read.',
        String(value),
        'a number',
      )
  if (change.kind === 'barometer' && (change.share < 0 || change.share > 1))
    return refuse(
      'share',
      'share-unfit',
      'The share of the air that a sensor feels lies between 0 and 1.',
      String(change.share),
      '0 to 1',
    )
  if (change.kind === 'wiring' && change.readsAs === '')
    return refuse('readsAs', 'series-missing', 'Choose the series whose channel it reads.')
  if (change.kind === 'clock' && Math.abs(change.offsetSeconds) > furthestClockSeconds)
    return refuse(
      'offsetSeconds',
      'offset-too-far',
      'A clock cannot be tried more than 400 days off.',
      String(change.offsetSeconds),
    )
  if (change.kind === 'clock' && Math.abs(change.driftSecondsPerDay) > furthestClockSecondsPerDay)
    return refuse(
      'driftSecondsPerDay',
      'clock-drift-too-large',
      'A clock cannot be tried that gains or loses more than an hour a day. Give less, or an offset from an instant on.',
      String(change.driftSecondsPerDay),
    )
  if (
    change.kind === 'zero' &&
    change.zero.by === 'mean' &&
    !(change.zero.untilEpochMs > change.zero.fromEpochMs)
  )
    return refuse('zeroUntil', 'until-before-from', 'The stretch of the zero readings ends before it begins.')
  return accept(change)
}

function numbersOf(change: SandboxChange): readonly (readonly [field: string, value: number])[] {
  switch (change.kind) {
    case 'coefficient':
      return [['value', change.value]]
    case 'zero': {
      const { zero } = change
      const own =
        zero.by === 'raw'
          ? ([['raw', zero.raw]] as const)
          : zero.by === 'reading'
            ? ([['zeroAt', zero.atEpochMs]] as const)
            : ([
                ['zeroFrom', zero.fromEpochMs],
                ['zeroUntil', zero.untilEpochMs],
              ] as const)
      return [...own, ['reads', change.reads]]
    }
    case 'barometer':
      return [
        ['share', change.share],
        ['offsetKpa', change.offsetKpa],
        ...(change.referenceKpa === null ? [] : [['referenceKpa', change.referenceKpa] as const]),
      ]
    case 'thermal':
      return [
        ['factorPerDegC', change.factorPerDegC],
        ...(change.referenceDegC === null ? [] : [['referenceDegC', change.referenceDegC] as const]),
      ]
    case 'clock':
      return [
        ['offsetSeconds', change.offsetSeconds],
        ['driftSecondsPerDay', change.driftSecondsPerDay],
      ]
    case 'offset':
      return [
        ['amount', change.amount],
        ['perDay', change.perDay],
      ]
    case 'wiring':
      return []
  }
}
