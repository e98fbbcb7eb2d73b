import type { ZeroBaseline } from '../baseline/zero-baseline.ts'
import { showInstant } from '../site/site-readings.ts'
import type { LoggerClock, SensorBarometer } from '../site/tables.ts'
import type { Calibration, Companions } from './chain.ts'
import { companionAges } from './companion-age.ts'
import { type CorrectionError, correctionErrors } from './correction-errors.ts'
import { numberText } from './number-text.ts'
import { quality, qualitySentences } from './quality.ts'
import { type KnownOfReading, uncertaintySentences, uncertaintySources } from './reading-uncertainty.ts'
import { type ChainLine, runChain } from './run-chain.ts'
import { steps as stepsByKind } from './steps.ts'
import type { TrailStep } from './trail-step.ts'
import { carriedUncertainty, chainUncertainty, noUncertainty } from './uncertainty.ts'
import { type Venting, type VentingRemark, ventingRemark } from './venting-remark.ts'

/** A raw reading with everything its value depends on. */
export interface TrailReading {
  readonly series: string
  readonly logger: string
  readonly channel: string
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
  readonly raw: number
  readonly rawUnit: string
  readonly unit: string
  readonly fileName: string
  readonly sha256: string
  /** What its receipt says of the file, such as how a level line closed; null or absent: nothing. */
  readonly fileRemark?: string | null
  /** In force at its instant; null: none was. */
  readonly calibration: Calibration | null
  /** What the calibration's zero readings say (`zeroBaseline`); null or absent: it has none. */
  readonly zero?: ZeroBaseline | null
  /** Smallest step of the raw reading, raw unit; null: not known. */
  readonly rawResolution: number | null
  /** Of a pressure sensor (`ventingOf`); null or absent: it is none. */
  readonly venting?: Venting | null
  /** The companions that were in reach (`companionAges`); null: none, or not needed. */
  readonly temperature: TrailReading | null
  readonly barometer: TrailReading | null
  /** The dated record that names its barometer; null or absent: it is named with the sensor. */
  readonly barometerRecord?: SensorBarometer | null
  /** As the logger sent it; left out: as `atEpochMs`. */
  readonly stampEpochMs?: number
  /** By which its stamp is put right; null or absent: none is in force. */
  readonly clockRecord?: LoggerClock | null
  /** Bits of `quality` known from elsewhere: out of range, received late. */
  readonly quality: number
}

export type TrailRole = 'reading' | 'temperature' | 'barometer' | 'member'

/** A raw reading, its calibration and the arithmetic from one to the other. */
export interface TrailSource {
  readonly role: TrailRole
  readonly series: string
  readonly logger: string
  readonly channel: string
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
  readonly raw: number
  readonly rawUnit: string
  readonly fileName: string
  readonly sha256: string
  readonly fileRemark: string | null
  /** Null: none was in force at that instant. */
  readonly calibration: string | null
  readonly calibrationVersion: number | null
  readonly certificate: string | null
  readonly steps: readonly TrailStep[]
  readonly value: number | null
  readonly unit: string
  readonly standardUncertainty: number | null
  /** Errors of corrections in it that other sensors share; left out: none. */
  readonly corrections?: readonly CorrectionError[]
  /** How zero, scatter and resolution entered that uncertainty, a sentence each. */
  readonly uncertaintySentences: readonly string[]
  /** Whether the air's changes stand in it; left out where it feels none or no calibration was in force. */
  readonly ventingSentence?: string | undefined
  /** Since when and why it is corrected by its barometer; left out where that has no date or is not asked for. */
  readonly barometerSentence?: string | undefined
  /** The stamp that its logger sent and why it stands at another instant; left out where it stands as sent. */
  readonly clockSentence?: string | undefined
  /** Bits of `quality`. */
  readonly quality: number
}

/** A reading's own source first, then those of the companions its chain uses, and what is doubtful about them. */
export function trailSources(
  reading: TrailReading,
  role: TrailRole,
): { readonly sources: readonly TrailSource[]; readonly cautions: readonly string[] } {
  const { calibration } = reading
  const needs = companionAges(calibration?.steps ?? [])
  const temperature =
    needs.temperatureMinutes === null || reading.temperature === null
      ? null
      : trailSources(reading.temperature, 'temperature')
  const barometer =
    needs.barometerMinutes === null || reading.barometer === null
      ? null
      : trailSources(reading.barometer, 'barometer')
  const own = ownSource(reading, role, temperature?.sources[0] ?? null, barometer?.sources[0] ?? null)
  const remark = remarkOf(reading)
  const used = [temperature, barometer].filter((companion) => companion !== null)
  return {
    sources: [own, ...used.flatMap(({ sources }) => sources)],
    cautions: [
      ...qualitySentences(own.quality).map((sentence) => `${reading.series}: ${sentence}`),
      ...(remark?.airStandsInValues ? [`${reading.series}: ${remark.sentence}`] : []),
      ...used.flatMap(({ sources }) => ageCaution(reading, sources[0])),
      ...used.flatMap(({ cautions }) => cautions),
    ],
  }
}

function ownSource(
  reading: TrailReading,
  role: TrailRole,
  temperature: TrailSource | null,
  barometer: TrailSource | null,
): TrailSource {
  const { calibration, raw } = reading
  const companions: Companions = {
    temperatureDegC: temperature?.value ?? null,
    barometerKpa: barometer?.value ?? null,
  }
  const known: KnownOfReading = {
    calibration,
    zero: reading.zero ?? null,
    rawResolution: reading.rawResolution,
    temperatureStandardUncertainty: temperature?.standardUncertainty ?? null,
    barometerStandardUncertainty: barometer?.standardUncertainty ?? null,
  }
  const sources = uncertaintySources(known)
  const run = calibration === null ? null : runChain(raw, calibration.steps, companions)
  const remark = remarkOf(reading)
  const standardUncertainty =
    calibration === null ? null : chainUncertainty(raw, calibration.steps, companions, sources)
  const corrections = calibration === null ? [] : correctionErrors(raw, calibration.steps, companions)
  return {
    role,
    series: reading.series,
    logger: reading.logger,
    channel: reading.channel,
    atEpochMs: reading.atEpochMs,
    receivedAtEpochMs: reading.receivedAtEpochMs,
    raw,
    rawUnit: reading.rawUnit,
    fileName: reading.fileName,
    sha256: reading.sha256,
    fileRemark: reading.fileRemark ?? null,
    calibration: calibration?.id ?? null,
    calibrationVersion: calibration?.version ?? null,
    certificate: calibration?.certificate ?? null,
    steps:
      calibration === null || run === null
        ? []
        : linesOf(
            run.lines,
            reading.rawUnit,
            companions,
            carriedUncertainty(raw, calibration.steps, companions, sources).with(-1, standardUncertainty),
          ),
    value: run?.value ?? null,
    unit: reading.unit,
    standardUncertainty,
    ...(corrections.length === 0 ? {} : { corrections }),
    uncertaintySentences:
      standardUncertainty === null || calibration === null
        ? []
        : uncertaintySentences(known, {
            unit: reading.unit,
            rawUnit: reading.rawUnit,
            slope: slopeAt(raw, calibration, companions),
          }),
    ...(remark === null ? {} : { ventingSentence: remark.sentence }),
    ...barometerSentence(reading),
    ...clockSentence(reading),
    quality: reading.quality | (run?.quality ?? quality.noCalibration),
  }
}

/** What the dated record says, where the chain takes air pressure off. */
function barometerSentence({
  calibration,
  barometerRecord: record,
}: TrailReading): Pick<TrailSource, 'barometerSentence'> {
  if (!record || companionAges(calibration?.steps ?? []).barometerMinutes === null) return {}
  return {
    barometerSentence: `Corrected by ${record.barometer} from ${showInstant(record.validFrom)} on (version ${record.version}, ${record.author}: ${record.reason}).`,
  }
}

/** What was sent and by which record it was put right, where that moved it. */
function clockSentence({
  atEpochMs,
  stampEpochMs = atEpochMs,
  clockRecord: record,
}: TrailReading): Pick<TrailSource, 'clockSentence'> {
  if (!record || stampEpochMs === atEpochMs) return {}
  const seconds = (atEpochMs - stampEpochMs) / 1000
  return {
    clockSentence: `${record.logger} stamped it ${showInstant(stampEpochMs)}; ${numberText(Math.abs(seconds))} s are ${seconds > 0 ? 'added' : 'taken off'}, since its clock is on record as standing off from ${showInstant(record.validFrom)} on (version ${record.version}, ${record.author}: ${record.reason}).`,
  }
}

const remarkOf = ({ venting, calibration }: TrailReading): VentingRemark | null =>
  venting && calibration ? ventingRemark(venting, calibration.steps) : null

/** dy/dx of a whole chain: what a raw unit makes of the value. */
const slopeAt = (raw: number, { steps }: Calibration, companions: Companions): number =>
  carriedUncertainty(raw, steps, companions, { ...noUncertainty, raw: 1 }).at(-1) ?? 1

function linesOf(
  lines: readonly ChainLine[],
  rawUnit: string,
  companions: Companions,
  uncertainties: readonly (number | null)[],
): readonly TrailStep[] {
  let unit = rawUnit
  return lines.map(({ step, x, y }, index) => {
    const { sentence, formula, unitOut } = stepsByKind[step.kind]
    const units = { unitIn: unit, unitOut: unitOut(step.parameters, unit) }
    unit = units.unitOut
    return {
      kind: step.kind,
      sentence: sentence(x, y, step.parameters, companions, units),
      formula,
      input: x,
      inputUnit: units.unitIn,
      output: y,
      outputUnit: units.unitOut,
      standardUncertainty: y === null ? null : (uncertainties[index] ?? null),
    }
  })
}

function ageCaution(reading: TrailReading, companion: TrailSource | undefined): readonly string[] {
  if (companion === undefined || companion.atEpochMs === reading.atEpochMs) return []
  const minutes = (reading.atEpochMs - companion.atEpochMs) / 60_000
  return [`${companion.series}: read ${numberText(minutes)} min before ${reading.series}, which it corrects.`]
}
