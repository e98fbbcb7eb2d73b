import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { EfficiencyEstimate } from '#domain/ground/efficiency-estimate.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { formatValue } from '../ui/format-value.ts'
import type { AirTerm } from './air-term.ts'
import type { CalibrationFields } from './calibration-fields.ts'
import { efficiencyText } from './efficiency-sentences.ts'

/** A change to the draft of a calibration that an estimate proposes. */
export interface AirShareProposal {
  /** Share of a change of air pressure that the sensor feels, 0 to 1. */
  readonly share: number
  readonly reason: string
}

/** What an estimate proposes for the barometric step; the share is 1 less the efficiency, kept within 0 to 1. */
export function proposeAirShare(
  estimate: EfficiencyEstimate,
  barometer: string,
  fromEpochMs: number,
  untilEpochMs: number,
  timeZone: string,
): AirShareProposal {
  const share = Math.min(1, Math.max(0, 1 - estimate.efficiency))
  const kept = share === 1 - estimate.efficiency ? '' : ', kept within 0 to 1'
  return {
    share,
    reason: `Barometric efficiency ${efficiencyText(estimate)} from ${estimate.changes.airMetres.length} changes over a day beside ${barometer}, ${formatShortInstant(fromEpochMs, timeZone)} to ${formatShortInstant(untilEpochMs, timeZone)}: the sensor feels ${formatValue(share, 3)} of a change of air pressure${kept}.`,
  }
}

/** Why an estimate cannot become a barometric term; null where it can. Whole sentence. */
export function draftRefusal(
  list: CalibrationList,
  term: AirTerm,
  { interval: [low, high] }: EfficiencyEstimate,
): string | null {
  if (term.openWell && list.venting !== 'vented')
    return 'It cannot be drafted as a barometric term: there is no air pressure in the level of an open pipe to take out.'
  if (term.openWell)
    return 'It cannot be drafted as a barometric term: the sensor is vented and feels no air pressure, so a term would take it out twice.'
  if (list.unit !== 'kPa')
    return 'It cannot be drafted as a barometric term from here: the term stands in a chain that gives kPa.'
  if ((list.barometers.at(-1)?.barometer ?? null) === null)
    return 'It cannot be drafted as a barometric term: no barometer is named for this sensor. Name one as barometerSensor in sensors.csv.'
  if (high < 0 || low > 1)
    return 'It cannot be drafted as a barometric term: the whole interval lies outside 0 to 1.'
  return null
}

/** What the interval says of the share that is taken out now. Whole sentence. */
export function againstShareInForce(term: AirTerm, { interval: [low, high] }: EfficiencyEstimate): string {
  const efficiency = 1 - term.takenOut
  return efficiency >= low && efficiency <= high
    ? `The calibration in force takes out ${term.takenOut}, an efficiency of ${formatValue(efficiency, 2)}: it lies within the interval, so these readings give no reason to change it.`
    : `The calibration in force takes out ${term.takenOut}, an efficiency of ${formatValue(efficiency, 2)}: it lies outside the interval.`
}

/**
 * The fields of a draft with the share in their barometric step. A chain without one gets it after its other steps,
 * before a zero at the end; the pressure at the zero reading is then left for a person to give, as it is where the step
 * has a vacuum for its zero, which no share of a change can go with.
 */
export function withAirShare(fields: CalibrationFields, proposal: AirShareProposal): CalibrationFields {
  const efficiency = String(Number(proposal.share.toFixed(3)))
  const reason = proposal.reason
  const at = fields.steps.findIndex(({ kind }) => kind === 'barometric')
  if (at < 0) {
    const end = fields.steps.at(-1)?.kind === 'zero' ? fields.steps.length - 1 : fields.steps.length
    const step = {
      kind: 'barometric' as const,
      values: { reference: '', maximumAgeMinutes: '60', efficiency },
    }
    return { ...fields, reason, steps: fields.steps.toSpliced(end, 0, step) }
  }
  return {
    ...fields,
    reason,
    steps: fields.steps.map((step, index) => {
      if (index !== at) return step
      const vacuum = Number(step.values.reference) === 0 && proposal.share < 1
      return {
        ...step,
        values: { ...step.values, efficiency, ...(vacuum ? { reference: '' } : {}) },
      }
    }),
  }
}
