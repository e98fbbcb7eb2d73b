import type { PatchMember } from './patch-movement.ts'
import { changeText } from './wording.ts'

/** What the series of a patch did, in whole sentences: what is shared, by how many, and what some did by themselves. */
export const sentencesOfPatch = (
  members: readonly PatchMember[],
  commonSign: -1 | 0 | 1,
  unit: string,
): readonly string[] => [...whoMoved(members, commonSign), ...byItself(members, unit)]

/** Names those that did more or less than what all share, beyond chance: what is local must not drown in what is common. */
function byItself(members: readonly PatchMember[], unit: string): readonly string[] {
  const own = members
    .flatMap(({ trace, residual }) => (residual === null ? [] : [{ point: trace.point, ...residual }]))
    .filter(({ interval: [low, high] }) => low > 0 || high < 0)
    .toSorted((one, other) => Math.abs(other.change) - Math.abs(one.change))
  return own.length === 0
    ? []
    : [
        `Beside what they share, by themselves and beyond chance (95 % each), changed: ${own.map(({ point, change }) => `${point} by ${changeText(change, unit)}`).join(', ')}.`,
      ]
}

function whoMoved(members: readonly PatchMember[], commonSign: -1 | 0 | 1): readonly string[] {
  const of = (stands: PatchMember['stands']) => members.filter((one) => one.stands === stands)
  const names = (list: readonly PatchMember[]) => list.map(({ trace }) => trace.point).join(', ')
  const told = members.length - of('cannot-say').length
  // Of settlement a greater value lies lower: of the values is told, not of the ground.
  const way = commonSign > 0 ? 'their values growing' : 'their values falling'
  const list = (stands: PatchMember['stands'], words: string): readonly string[] =>
    of(stands).length === 0 ? [] : [`${of(stands).length} ${words}: ${names(of(stands))}.`]
  return [
    commonSign === 0
      ? `The ${told} series that can be told share no movement beyond chance.`
      : `${of('with').length} of ${told} series moved together, ${way}${of('with').length > 0 ? `: ${names(of('with'))}` : ''}.`,
    ...list('against', 'moved the other way'),
    ...list('alone', 'moved by itself, while most did not'),
    ...list('still', 'showed no movement beyond chance'),
    ...list('cannot-say', 'had too few readings: nothing can be concluded of it, nor that it stood still'),
  ]
}
