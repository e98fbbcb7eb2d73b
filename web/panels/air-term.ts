import type { CalibrationList, CalibrationVersion } from '#contract/calibration-draft.ts'
import type { PlacedPoint, Series } from '#contract/site-document.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import type { StepParameters } from '#domain/reduction/chain.ts'
import { givenOrDefault } from '#domain/reduction/parameter.ts'
import { parseStepParameters } from '#domain/reduction/parse-step-parameters.ts'
import { isSameUnit } from '#domain/units.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** How much of the air pressure is already out of a sensor's published values. */
export interface AirTerm {
  /** Share of a change of air pressure, 0 to 1; 1 for an open well. */
  readonly takenOut: number
  /** The sensor's reference level above its barometer. */
  readonly riseMetres: number
  /** True where the values are an open well's level of themselves: a vented sensor, or a dipped level. */
  readonly openWell: boolean
  /** Whole sentence. */
  readonly says: string
}

/** What an interval's published values hold of the air pressure, by the one calibration in force over all of it. */
export function airTermOver(
  list: CalibrationList,
  fromEpochMs: number,
  untilEpochMs: number,
  timeZone: string,
): Outcome<AirTerm> {
  if (list.venting === 'vented')
    return accept({
      takenOut: 1,
      riseMetres: 0,
      openWell: true,
      says: 'The sensor is vented: it shows the level of an open well of itself.',
    })
  const begun = list.versions.find(
    ({ row }) => row.validFrom > fromEpochMs && row.validFrom < untilEpochMs && isHeld(list, row.version),
  )
  if (begun)
    return refuse(
      `Version ${begun.row.version} of the calibration begins within the interval, at ${formatShortInstant(begun.row.validFrom, timeZone)}. Choose an interval that lies on one side of it.`,
    )
  const inForce = list.versions
    .filter(({ row }) => row.validFrom <= fromEpochMs && isHeld(list, row.version))
    .toSorted((one, other) => one.row.validFrom - other.row.validFrom)
    .at(-1)
  if (!inForce)
    return refuse('No calibration is in force at the beginning of the interval. Choose a later one.')
  const step = barometricStep(inForce)
  if (step) {
    const takenOut = givenOrDefault('barometric', step, 'efficiency')
    return accept({
      takenOut,
      riseMetres: givenOrDefault('barometric', step, 'riseMetres'),
      openWell: false,
      says: `The calibration in force, version ${inForce.row.version}, takes ${takenOut === 1 ? 'the whole' : `${takenOut} of the`} change of air pressure out of what the sensor feels; this is allowed for.`,
    })
  }
  if (isSameUnit(list.rawUnit, 'm'))
    return accept({
      takenOut: 1,
      riseMetres: 0,
      openWell: true,
      says: 'The level is read as a length in an open pipe: there is no air pressure in it.',
    })
  if (list.venting === 'sealed')
    return accept({
      takenOut: 0,
      riseMetres: 0,
      openWell: false,
      says: 'The sensor is sealed and nothing is taken out of its values for air pressure; this is allowed for.',
    })
  return refuse(
    'It is not on record whether this sensor is vented to the air or sealed from it, and the two differ by the whole air pressure. State it as venting in sensors.csv.',
  )
}

/** Of versions that begin together the highest holds. */
const isHeld = ({ versions }: CalibrationList, version: number): boolean => {
  const from = versions.find(({ row }) => row.version === version)?.row.validFrom
  return !versions.some(({ row }) => row.validFrom === from && row.version > version)
}

function barometricStep(version: CalibrationVersion): StepParameters | null {
  const row = version.stepRows.find(({ kind }) => kind === 'barometric')
  const read = row ? parseStepParameters('barometric', row.parameters ?? '') : null
  return read?.ok ? read.value : null
}

const refuse = (message: string) => reject({ code: 'air-term-unknown', message })

/** The barometer that corrects a sensor over the whole of an interval; null where none is named. */
export function barometerOver(
  { barometers }: Pick<CalibrationList, 'barometers'>,
  fromEpochMs: number,
  untilEpochMs: number,
  timeZone: string,
): Outcome<string | null> {
  const begun = barometers.find(
    (one) => one.fromEpochMs !== null && one.fromEpochMs > fromEpochMs && one.fromEpochMs < untilEpochMs,
  )
  if (begun)
    return refuse(
      `The sensor is corrected by another barometer, ${begun.barometer}, from ${formatShortInstant(begun.fromEpochMs as number, timeZone)} on, within the interval. Choose an interval that lies on one side of it.`,
    )
  return accept(
    barometers.findLast((one) => one.fromEpochMs === null || one.fromEpochMs <= fromEpochMs)?.barometer ??
      null,
  )
}

/** Since when, by whom and why a sensor is corrected by another barometer; nothing where it never was by another. */
export const barometerSentences = (
  { barometers }: Pick<CalibrationList, 'barometers'>,
  timeZone: string,
): readonly string[] =>
  barometers.flatMap(({ barometer, fromEpochMs, entered }, at) =>
    fromEpochMs === null || entered === null
      ? []
      : `Corrected by ${barometer} from ${formatShortInstant(fromEpochMs, timeZone)} on, before that by ${barometers[at - 1]?.barometer ?? 'none'}. ${entered.author}: ${entered.reason}`,
  )

export interface BarometerChoice {
  readonly series: Series
  /** Whole sentence: why this one, and where it is. */
  readonly says: string
}

/** The barometer that a sensor's reduction uses; where none is named, the nearest on plan. Null where the site has none. */
export function barometerFor(
  point: PlacedPoint,
  named: string | null,
  series: readonly Series[],
  pointById: ReadonlyMap<string, PlacedPoint>,
): BarometerChoice | null {
  const awayMetres = (one: Series) => {
    const at = pointById.get(one.point)
    return at
      ? Math.hypot(at.eastingMetres - point.eastingMetres, at.northingMetres - point.northingMetres)
      : Number.POSITIVE_INFINITY
  }
  const chosen =
    series.find(({ id }) => id === named) ??
    series
      .filter(({ measure }) => measure === 'barometric-pressure')
      .toSorted((one, other) => awayMetres(one) - awayMetres(other))[0]
  if (!chosen) return null
  const at = pointById.get(chosen.point)
  const above = at ? at.levelMetres - point.levelMetres : 0
  const where = at
    ? `, ${awayMetres(chosen).toFixed(0)} m away on plan and ${Math.abs(above).toFixed(1)} m ${above < 0 ? 'below' : 'above'} the sensor`
    : ''
  return {
    series: chosen,
    says:
      chosen.id === named
        ? `Barometer: ${chosen.point}${where}; the one that the sensor's reduction uses.`
        : `Barometer: ${chosen.point}${where}; no barometer is named for this sensor, and this is the nearest.`,
  }
}
