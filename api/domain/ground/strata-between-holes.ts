/** A hole on a section, with the layers it met from the top down. */
export interface LoggedHole {
  readonly id: string
  readonly chainageMetres: number
  /** From the line of the section, right positive. */
  readonly offsetMetres: number
  /** Level of its end: a layer that reaches it was not seen to its base. */
  readonly footLevelMetres: number
  readonly strata: readonly {
    readonly name: string
    readonly topLevelMetres: number
    readonly baseLevelMetres: number
  }[]
}

/** A layer carried from one hole to the next. */
export interface JoinedStratum {
  readonly name: string
  readonly fromHole: string
  readonly toHole: string
  readonly topLevelsMetres: readonly [from: number, to: number]
  /** Null where a hole ends within the layer: its base is not known there. */
  readonly baseLevelsMetres: readonly [from: number, to: number] | null
  /** Distance of the two holes in plan. */
  readonly apartMetres: number
  /** True where the holes are near enough and met their layers in one order; else the join is a guess. */
  readonly justified: boolean
}

/** A hole's end is surveyed, its layers are logged: a base this near to it is the end of the hole. */
const sameLevelMetres = 0.3

/**
 * Layers carried between neighbouring holes along a section: those that both met, in the order of chainage. A join is
 * justified where the holes stand no farther apart in plan than the stated limit and agree on the order of layers;
 * all others are given too, to be drawn as guesses. A layer that one of the two did not meet ends somewhere between
 * them, which nobody saw: it is not joined. Straight between holes, as is common practice, no published source.
 */
export function joinStrata(holes: readonly LoggedHole[], limitMetres: number): readonly JoinedStratum[] {
  const ordered = holes
    .filter(({ strata }) => strata.length > 0)
    .toSorted((one, other) => one.chainageMetres - other.chainageMetres || (one.id < other.id ? -1 : 1))
  return ordered.flatMap((from, place) => {
    const to = ordered[place + 1]
    return to ? joinsBetween(from, to, limitMetres) : []
  })
}

function joinsBetween(from: LoggedHole, to: LoggedHole, limitMetres: number): JoinedStratum[] {
  const apartMetres = Math.hypot(to.chainageMetres - from.chainageMetres, to.offsetMetres - from.offsetMetres)
  const shared = from.strata.filter(({ name }) => to.strata.some((other) => other.name === name))
  const theirs = to.strata.filter(({ name }) => shared.some((one) => one.name === name))
  const inOrder =
    shared.length === theirs.length && shared.every(({ name }, index) => theirs[index]?.name === name)
  // A name met twice in a hole cannot be told apart: which of the two goes on is not known.
  const once = (hole: LoggedHole, name: string) => hole.strata.filter((one) => one.name === name).length === 1
  return shared.flatMap((stratum) => {
    const other = theirs.find(({ name }) => name === stratum.name)
    if (!other || !once(from, stratum.name) || !once(to, stratum.name)) return []
    const known = [
      [stratum, from],
      [other, to],
    ] as const
    const seen = known.every(
      ([layer, hole]) => layer.baseLevelMetres > hole.footLevelMetres + sameLevelMetres,
    )
    return [
      {
        name: stratum.name,
        fromHole: from.id,
        toHole: to.id,
        topLevelsMetres: [stratum.topLevelMetres, other.topLevelMetres] as const,
        baseLevelsMetres: seen ? ([stratum.baseLevelMetres, other.baseLevelMetres] as const) : null,
        apartMetres,
        justified: inOrder && apartMetres <= limitMetres,
      },
    ]
  })
}
