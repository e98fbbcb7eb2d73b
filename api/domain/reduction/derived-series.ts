import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { InstrumentKind, Measure } from '../site/vocabulary.ts'
import { planCrackMeter } from './plans/crack-meter.ts'
import { planExtensometer } from './plans/extensometer.ts'
import { planInPlaceInclinometer } from './plans/in-place-inclinometer.ts'
import { planPiezometerString } from './plans/piezometer-string.ts'
import type { Planner, PlanSite } from './plans/plan-site.ts'
import { planSettlementCell } from './plans/settlement-cell.ts'
import { planStructureLine } from './plans/structure-line.ts'
import { planStrut } from './plans/strut.ts'
import { planTiltBeams } from './plans/tilt-beams.ts'
import { planTraversedInclinometer } from './plans/traversed-inclinometer.ts'
import type { DerivedBundle } from './rules/derived-bundle.ts'

const planners: Readonly<Partial<Record<InstrumentKind, Planner>>> = {
  'strut-load': planStrut,
  'in-place-inclinometer': planInPlaceInclinometer,
  extensometer: planExtensometer,
  'traversed-inclinometer': planTraversedInclinometer,
  'tilt-beam': planTiltBeams,
  'crack-meter': planCrackMeter,
  'settlement-cell': planSettlementCell,
  piezometer: planPiezometerString,
  'structure-line': planStructureLine,
}

/** Every measure that a plan may make: what a record may name before all others can be read. */
export const derivedMeasures: readonly Measure[] = [
  'force',
  'thermal-force',
  'force-less-thermal',
  'deflection',
  'displacement-east',
  'displacement-north',
  'strain',
  'relative-displacement',
  'settlement',
  'checksum-a',
  'checksum-b',
  'deviation-a',
  'deviation-b',
  'deflection-b',
  'differential-settlement',
  'resultant',
  'hydraulic-gradient',
  'pore-pressure-ratio',
  'effective-stress',
  'angular-distortion',
  'deflection-ratio',
  'tilt',
  'opening',
  'shear',
  'relative-settlement',
]

/**
 * The series that instruments derive from their members, by the plan of their kind. Refused, with record and reason,
 * where members have different units, a segment has no sensor, ends do not join or no still end is stated. A series
 * that is itself measured is not derived.
 */
export function derivedBundles(site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const issues: Issue[] = []
  const known = new Set(site.sensors.map(({ id }) => id))
  const bundles = site.instruments.flatMap((instrument): readonly DerivedBundle[] => {
    const made = planners[instrument.kind]?.(instrument, site)
    if (made === undefined) return []
    if (!made.ok) {
      issues.push(...made.issues)
      return []
    }
    return made.value.flatMap((bundle) => {
      const outputs = bundle.outputs.filter(({ id }) => !known.has(id))
      return outputs.length > 0 ? [{ ...bundle, outputs }] : []
    })
  })
  return issues.length > 0 ? reject(...issues) : accept(bundles)
}
