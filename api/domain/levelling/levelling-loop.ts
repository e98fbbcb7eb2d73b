import { accept, type Outcome, reject } from '../outcome.ts'

/** One setup of the level: staff behind, staff ahead, m. */
export interface Setup {
  readonly backsightMetres: number
  readonly foresightMetres: number
  /** Length of the sight back and the sight ahead together; null where not written down. */
  readonly distanceMetres: number | null
}

/** Reduced level of the point ahead of each setup, m: start + Σ (backsight − foresight). */
export function reducedLevels(startLevelMetres: number, setups: readonly Setup[]): readonly number[] {
  let level = startLevelMetres
  return setups.map(({ backsightMetres, foresightMetres }) => {
    level += backsightMetres - foresightMetres
    return level
  })
}

/** How far the last level is off the level that it should come back to, m: positive when it came out too high. */
export const misclosureMetres = (
  startLevelMetres: number,
  setups: readonly Setup[],
  endLevelMetres = startLevelMetres,
): number => (reducedLevels(startLevelMetres, setups).at(-1) ?? startLevelMetres) - endLevelMetres

/** Greatest misclosure allowed, mm: k · √K, K the length of the loop in km, k in mm per √km. */
export const allowedMisclosureMm = (k: number, lengthKilometres: number): number =>
  k * Math.sqrt(lengthKilometres)

/** Whether a misclosure is within k · √K. A loop is tested before it is adjusted, and adjusted only when it is. */
export const isClosed = (misclosureMm: number, k: number, lengthKilometres: number): boolean =>
  Math.abs(misclosureMm) <= allowedMisclosureMm(k, lengthKilometres)

/** Loop closures in mm per √km by order and class (FGCC 1984, from memory). A section run there and back has its own. */
export const loopClosures: readonly { readonly order: string; readonly k: number }[] = [
  { order: 'first order, class I', k: 4 },
  { order: 'first order, class II', k: 5 },
  { order: 'second order, class I', k: 6 },
  { order: 'second order, class II', k: 8 },
  { order: 'third order', k: 12 },
]

/**
 * Levels with the misclosure taken off in equal parts by `setups`, or in proportion to the distance levelled by
 * `distance`. Refused by distance where one is missing or their sum is 0.
 */
export function adjustedLevels(
  startLevelMetres: number,
  setups: readonly Setup[],
  by: 'setups' | 'distance',
  endLevelMetres = startLevelMetres,
): Outcome<readonly number[]> {
  const shares = setups.map(({ distanceMetres }) => (by === 'setups' ? 1 : (distanceMetres ?? Number.NaN)))
  const whole = shares.reduce((sum, share) => sum + share, 0)
  if (setups.length > 0 && !(whole > 0))
    return reject({
      code: 'distance-expected',
      value: String(whole),
      expected: 'the length of every sight',
      message:
        'A setup has no length of sights, so the misclosure cannot be shared by distance. Give it, or share by setups.',
    })
  const misclosure = misclosureMetres(startLevelMetres, setups, endLevelMetres)
  let gone = 0
  return accept(
    reducedLevels(startLevelMetres, setups).map((level, index) => {
      gone += shares[index] ?? 0
      return level - (misclosure * gone) / whole
    }),
  )
}
