import { type Analysis, given, reasonWithoutValue, sortOut } from '../analysis.ts'

/** A piezometer tip near a section. */
export interface SectionTip {
  readonly id: string
  readonly stratum: string
  readonly chainageMetres: number
  /** From the line of the section. */
  readonly offsetMetres: number
  /** Null: no value known. */
  readonly piezometricLevelMetres: number | null
  readonly late: boolean
}

/** A wall or fault that water does not cross, where it meets the section. */
export interface SectionBarrier {
  readonly name: string
  readonly chainageMetres: number
}

/** The gap between two neighbouring tips of a stratum: a line, or the reason why there is none. */
export interface WaterLinePart {
  readonly stratum: string
  readonly from: string
  readonly to: string
  readonly chainagesMetres: readonly [number, number]
  /** Null: no line is drawn. */
  readonly levelsMetres: readonly [number, number] | null
  /** Whole sentence; null where the line is drawn. */
  readonly reason: string | null
}

/**
 * Piezometric line of each stratum along a section, straight between neighbouring tips, only where both have a current
 * value, stand no farther apart in plan than a limit, and no barrier lies between. A tip without one breaks the line:
 * nothing is drawn past it.
 */
export function waterLines(
  tips: readonly SectionTip[],
  barriers: readonly SectionBarrier[],
  limitMetres: number,
): readonly WaterLinePart[] {
  const strata = [...new Set(tips.map(({ stratum }) => stratum))]
  return strata.flatMap((stratum) => {
    const ordered = tips
      .filter((tip) => tip.stratum === stratum)
      .toSorted((one, other) => one.chainageMetres - other.chainageMetres || (one.id < other.id ? -1 : 1))
    return ordered.slice(1).map((to, at): WaterLinePart => {
      const from = ordered[at] as SectionTip
      const reason = reasonForNone(from, to, barriers, limitMetres)
      return {
        stratum,
        from: from.id,
        to: to.id,
        chainagesMetres: [from.chainageMetres, to.chainageMetres],
        levelsMetres:
          reason === null
            ? [from.piezometricLevelMetres as number, to.piezometricLevelMetres as number]
            : null,
        reason,
      }
    })
  })
}

function reasonForNone(
  from: SectionTip,
  to: SectionTip,
  barriers: readonly SectionBarrier[],
  limitMetres: number,
): string | null {
  for (const { id, piezometricLevelMetres, late } of [from, to]) {
    if (piezometricLevelMetres === null || !Number.isFinite(piezometricLevelMetres))
      return `${id} has no value.`
    if (late) return `The last reading of ${id} is late: it has no current value.`
  }
  const wall = barriers.find(
    ({ chainageMetres }) => chainageMetres >= from.chainageMetres && chainageMetres <= to.chainageMetres,
  )
  if (wall) return `${wall.name} stands between ${from.id} and ${to.id}.`
  const apart = Math.hypot(to.chainageMetres - from.chainageMetres, to.offsetMetres - from.offsetMetres)
  if (apart > limitMetres)
    return `${from.id} and ${to.id} stand ${apart.toFixed(0)} m apart, more than the ${limitMetres} m within which a line is drawn.`
  return apart === 0 ? `${from.id} and ${to.id} stand at one place.` : null
}

export interface PhreaticSection extends Analysis<SectionTip> {
  readonly parts: readonly WaterLinePart[]
  readonly barriers: readonly SectionBarrier[]
}

/** The lines of water of a section with what they rest on. */
export function phreaticSection(
  tips: readonly SectionTip[],
  barriers: readonly SectionBarrier[],
  limitMetres: number,
): PhreaticSection {
  const parts = waterLines(tips, barriers, limitMetres)
  return {
    ...sortOut(tips, ({ piezometricLevelMetres, late }) => reasonWithoutValue(piezometricLevelMetres, late)),
    method:
      'Straight between neighbouring tips of one stratum, as is common practice, no published source; a tip without a current value breaks the line.',
    parameters: [
      given('farthest apart that a line is drawn', limitMetres, 'm'),
      given('barriers', barriers.length, ''),
    ],
    found: [],
    remarks: [
      'A line between two tips is no water table: between them the water may stand higher or lower, most of all near a drain or a pumped well.',
      ...parts.flatMap(({ reason }) => (reason === null ? [] : [`No line is drawn: ${reason}`])),
    ],
    parts,
    barriers,
  }
}
