import { groupBy } from '../group-by.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { calibrationPeriods } from '../reduction/calibration-in-force.ts'
import { nextCalibration } from '../reduction/draft-calibration.ts'
import { modelFaults } from '../site/check-model.ts'
import type { SiteModel } from '../site/site.ts'
import type { CalibrationRow } from '../site/tables.ts'
import { correctedBarometers } from './corrected-barometers.ts'
import { correctedClocks } from './corrected-clocks.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import { correctedWiring } from './corrected-wiring.ts'
import type { ProposedCorrection, StepText, TakenZero } from './correction.ts'
import { calibrationOf, datedOf, hasSameZero, stepsOf } from './resolve-corrections.ts'
import { staleCorrections } from './stale-corrections.ts'
import { isSameChain } from './step-text.ts'

/** Who made new versions and why; both stand in their rows. */
export interface CorrectionSignature {
  readonly author: string
  readonly reason: string
}

type OfKind<K extends ProposedCorrection['kind']> = Extract<ProposedCorrection, { kind: K }>

/**
 * The records of a site with corrections made: new versions of calibrations, which hold from their instants on, barometers likewise, and
 * wiring that ends and begins. No version is edited. Refused where the records are not what the corrections were proposed on any
 * more, or what comes of it would not go together; an issue's `column` is `changes.` and the number of the correction.
 */
export function correctedModel(
  model: SiteModel,
  corrections: readonly ProposedCorrection[],
  signature: CorrectionSignature,
): Outcome<SiteModel> {
  const stale = staleCorrections(model, corrections)
  if (stale.length > 0) return reject(...stale)
  // First, since a chain that takes air pressure off for the first time needs its barometer named.
  const sensorBarometers = correctedBarometers(
    model,
    corrections.filter((one): one is OfKind<'barometer'> => one.kind === 'barometer'),
    signature,
  )
  const calibrated = withVersions(
    { ...model, sensorBarometers },
    corrections.filter((one): one is OfKind<'calibration'> => one.kind === 'calibration'),
    signature,
  )
  if (!calibrated.ok) return calibrated
  const corrected: SiteModel = {
    ...model,
    ...calibrated.value,
    sensorBarometers,
    loggerClocks: correctedClocks(
      model,
      corrections.filter((one): one is OfKind<'clock'> => one.kind === 'clock'),
      signature,
    ),
    wiring: correctedWiring(
      model.wiring,
      corrections.filter((one): one is OfKind<'wiring'> => one.kind === 'wiring'),
      signature.reason,
    ),
  }
  const all = modelFaults(corrected)
  if (all.length === 0) return accept(corrected)
  // What the records have against them already is no fault of a correction.
  const before = new Set(modelFaults(model).map(({ code, value }) => `${code} ${value}`))
  const faults = all.filter(({ code, value }) => !before.has(`${code} ${value}`))
  return faults.length > 0 ? reject(...faults) : accept(corrected)
}

type Calibrated = Pick<SiteModel, 'calibrations' | 'calibrationSteps' | 'zeroReadings'>

function withVersions(
  model: CorrectedTables,
  corrections: readonly OfKind<'calibration'>[],
  signature: CorrectionSignature,
): Outcome<Calibrated> {
  let made = model
  for (const [series, own] of groupBy(corrections, (one) => one.series)) {
    const begins = new Set(calibrationPeriods(datedOf(model, series)).map(({ fromEpochMs }) => fromEpochMs))
    const parts = own.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)
    for (const [at, part] of parts.entries()) {
      const [earlier, later] = [parts[at - 1], parts[at + 1]]
      const goesOn =
        earlier?.untilEpochMs === part.fromEpochMs &&
        isSameChain(earlier.steps, part.steps) &&
        !begins.has(part.fromEpochMs)
      const replaced = calibrationOf(model, series, part.fromEpochMs) as CalibrationRow
      if (!goesOn) {
        const next = withVersion(
          made,
          replaced,
          part.fromEpochMs,
          part.steps,
          signature,
          part.zeroReadings ?? [],
        )
        if (!next.ok) return next
        made = next.value
      }
      const until = part.untilEpochMs
      if (until === null || begins.has(until) || later?.fromEpochMs === until) continue
      const ended = withVersion(made, replaced, until, stepsOf(model, replaced.id), {
        ...signature,
        reason: `As ${replaced.id} again, after the correction before it. ${signature.reason}`,
      })
      if (!ended.ok) return ended
      made = ended.value
    }
  }
  const { calibrations, calibrationSteps, zeroReadings } = made
  return accept({ calibrations, calibrationSteps, zeroReadings })
}

/** One more version of a sensor's calibration, with all but chain and instant as another version has it. */
function withVersion(
  model: CorrectedTables,
  like: CalibrationRow,
  validFromEpochMs: number,
  steps: readonly StepText[],
  { author, reason }: CorrectionSignature,
  zeroReadings: readonly TakenZero[] = [],
): Outcome<CorrectedTables> {
  const versions = model.calibrations.filter(({ sensor }) => sensor === like.sensor)
  const next = nextCalibration(model, {
    sensor: like.sensor,
    follows: Math.max(...versions.map(({ version }) => version)),
    validFromEpochMs,
    certificate: like.certificate,
    calibratedAtEpochMs: like.calibratedAt,
    dueAtEpochMs: like.dueAt,
    standardUncertainty: like.standardUncertainty,
    steps,
    author,
    reason,
  })
  if (!next.ok) return next
  const { id } = next.value.row
  const carried = hasSameZero(stepsOf(model, like.id), steps)
    ? model.zeroReadings.filter(({ calibration }) => calibration === like.id)
    : []
  return accept({
    ...model,
    zeroReadings: [
      ...model.zeroReadings,
      ...carried.map((row) => ({ ...row, calibration: id })),
      ...zeroReadings.map((taken) => ({ ...taken, calibration: id, author })),
    ],
    calibrations: [...model.calibrations, next.value.row],
    calibrationSteps: [...model.calibrationSteps, ...next.value.stepRows],
  })
}
