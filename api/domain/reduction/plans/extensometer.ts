import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, siteTables } from '../../site/tables.ts'
import type { Combination, DerivedBundle, DerivedSlot } from '../rules/derived-bundle.ts'
import { combinationBundles, type MadeSeries } from './made-series.ts'
import { decimalsOf, instrumentIssue, type PlanSite, pointsOf, sensorsOf, unitFaults } from './plan-site.ts'
import { measuredSlots } from './slots.ts'
import { surveyedSlot } from './surveyed-slot.ts'

/**
 * What an extensometer derives from its readings, which are anchors against the head: strain between neighbours
 * (extension positive, mm/m), movement relative to the deepest anchor, or settlement of each anchor from a surveyed
 * head. Nothing while it is not stated whether a positive reading means apart or together: a sign is not guessed.
 */
export function planExtensometer(instrument: Instrument, site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const points = pointsOf(instrument, site)
  const sensors = sensorsOf(points, site, 'displacement')
  const sense = instrument.anchorPositive ?? null
  if (sensors.length === 0) return accept([])
  if (sense === null)
    return instrument.fixedEnd === 'surveyed-head'
      ? reject(
          instrumentIssue(
            instrument,
            'anchorPositive',
            'anchor-sense-expected',
            'apart or together',
            `${instrument.id} has a surveyed head, but does not say whether a positive reading means that head and anchor move apart or come together. Write one of them in anchorPositive.`,
          ),
        )
      : accept([])
  const anchors = measuredSlots(points, sensors)
  const faults = [...unitFaults(instrument, sensors, 'mm'), ...depthFaults(instrument, anchors)]
  if (faults.length > 0) return reject(...faults)

  const decimals = decimalsOf(sensors)
  const made = [...strains(anchors, sense, decimals)]
  const slots = [...anchors]
  if (instrument.fixedEnd === 'deepest-anchor')
    made.push(...fromDeepest(instrument, anchors, sense, decimals))
  if (instrument.fixedEnd === 'surveyed-head') {
    const head = surveyedHead(instrument, site)
    if (!head.ok) return head
    made.push(...fromSurveyedHead(anchors, sense, decimals, head.value.point))
    slots.push(head.value)
  }
  return accept(combinationBundles(instrument, slots, made, sensors))
}

/** Strain above each anchor: of the ground between it and the anchor above, or the head. */
function strains(
  anchors: readonly DerivedSlot[],
  sense: 'apart' | 'together',
  decimals: number,
): readonly MadeSeries[] {
  const sign = sense === 'apart' ? 1 : -1
  return anchors.map(({ point, depthMetres }, slot) => {
    const above = anchors[slot - 1]
    const lengthMetres = depthMetres - (above?.depthMetres ?? 0)
    return {
      output: {
        id: `${point}/strain`,
        point,
        measure: 'strain',
        unit: 'mm/m',
        // A metre or more between anchors divides the last decimal of a reading.
        decimals: Math.min(6, decimals + 1),
        positiveMeans: `the ground between ${above?.point ?? 'the head'} and ${point} lengthens`,
      },
      combination: {
        constant: 0,
        terms: [
          { slot, weight: sign / lengthMetres },
          ...(above ? [{ slot: slot - 1, weight: -sign / lengthMetres }] : []),
        ],
        says: `Strain over ${lengthMetres} m from ${above?.point ?? 'the head'} to ${point}, extension positive`,
        formula: sense === 'apart' ? 'ε = (r − r above) / L' : 'ε = −(r − r above) / L',
      },
    }
  })
}

function fromDeepest(
  { id }: Instrument,
  anchors: readonly DerivedSlot[],
  sense: 'apart' | 'together',
  decimals: number,
): readonly MadeSeries[] {
  const last = anchors.length - 1
  const deepest = anchors[last]?.point ?? ''
  const positiveMeans =
    sense === 'apart'
      ? `moves towards the collar, relative to the deepest anchor ${deepest}`
      : `moves away from the collar, relative to the deepest anchor ${deepest}`
  const made = (point: string, name: string, terms: Combination['terms']): MadeSeries => ({
    output: {
      id: `${point}/relative-displacement`,
      point,
      measure: 'relative-displacement',
      unit: 'mm',
      decimals,
      positiveMeans,
    },
    combination: {
      constant: 0,
      terms,
      says: `${name} relative to the deepest anchor ${deepest}`,
      formula: 'u = r of the deepest anchor − r',
    },
  })
  return [
    made(id, 'Head', [{ slot: last, weight: 1 }]),
    ...anchors.slice(0, -1).map(({ point }, slot) =>
      made(point, point, [
        { slot: last, weight: 1 },
        { slot, weight: -1 },
      ]),
    ),
  ]
}

function fromSurveyedHead(
  anchors: readonly DerivedSlot[],
  sense: 'apart' | 'together',
  decimals: number,
  head: string,
): readonly MadeSeries[] {
  return anchors.map(({ point }, slot) => ({
    output: {
      id: `${point}/settlement`,
      point,
      measure: 'settlement',
      unit: 'mm',
      decimals,
      positiveMeans: `settlement, downwards: that of the head, surveyed at ${head}, ${sense === 'apart' ? 'and' : 'less'} the reading`,
    },
    combination: {
      constant: 0,
      terms: [
        { slot: anchors.length, weight: 1 },
        { slot, weight: sense === 'apart' ? 1 : -1 },
      ],
      says: `Settlement of ${point} from the surveyed settlement of the head at ${head}`,
      formula: sense === 'apart' ? 's = s head + r' : 's = s head − r',
    },
  }))
}

/** Settlement of the head is its movement along the hole only where the hole goes straight down. */
function surveyedHead(instrument: Instrument, site: PlanSite): Outcome<DerivedSlot> {
  const dip = site.locations.find(({ id }) => id === instrument.location)?.dipDegrees ?? Number.NaN
  if (!(dip >= 85))
    return reject(
      instrumentIssue(
        instrument,
        'fixedEnd',
        'surveyed-head-of-raked-hole',
        'a hole within 5 degrees of straight down',
        `${instrument.id} has a surveyed head, but its hole dips ${Number.isNaN(dip) ? 'by an angle not known' : `${dip} degrees`}: settlement of the head is not its movement along the hole. Write deepest-anchor.`,
      ),
    )
  return surveyedSlot(instrument, site, 'settlement')
}

const depthFaults = ({ id }: Instrument, anchors: readonly DerivedSlot[]) =>
  anchors.flatMap(({ point, depthMetres }, slot) => {
    const above = anchors[slot - 1]
    if (depthMetres > (above?.depthMetres ?? 0)) return []
    return [
      {
        code: 'anchors-at-one-depth',
        file: siteTables.points.file,
        column: 'depthMetres',
        value: String(depthMetres),
        expected: 'a depth below the anchor above it',
        message: `${point} of ${id} lies at ${depthMetres} m, where ${above?.point ?? 'the head'} is: there is no length to strain. Correct the depth.`,
      },
    ]
  })
