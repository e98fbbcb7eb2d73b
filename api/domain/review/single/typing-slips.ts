/** A number as it may have been meant where another was written down. */
export interface TypingSlip {
  readonly kind: 'decimal point' | 'swapped digits' | 'sign' | 'unit'
  readonly says: string
  readonly meant: number
}

/** Factors between units in which the same is read; common practice, definitions of the international foot and inch. */
const unitFactors: readonly (readonly [says: string, factor: number])[] = [
  ['feet for metres', 0.3048],
  ['metres for feet', 1 / 0.3048],
  ['inches for centimetres', 2.54],
  ['millimetres for metres', 1e-3],
  ['metres for millimetres', 1e3],
]

/**
 * What a written number may have been meant as: the decimal point one or two places off, two digits beside each other
 * swapped, the sign, or another unit. A written number has no digits beyond those that it shows.
 */
export function typingSlips(written: number): readonly TypingSlip[] {
  const slips: TypingSlip[] = []
  for (const factor of [10, 0.1, 100, 0.01])
    slips.push({
      kind: 'decimal point',
      says: `the decimal point ${factor === 10 || factor === 0.1 ? 'one place' : 'two places'} off`,
      meant: written * factor,
    })
  for (const meant of swapped(written))
    slips.push({ kind: 'swapped digits', says: `two digits swapped, ${meant} for ${written}`, meant })
  if (written !== 0) slips.push({ kind: 'sign', says: 'the sign', meant: -written })
  for (const [says, factor] of unitFactors) slips.push({ kind: 'unit', says, meant: written * factor })
  return slips
}

function swapped(written: number): readonly number[] {
  const text = String(Math.abs(written))
  if (text.includes('e')) return []
  const places = [...text].flatMap((sign, place) => (sign === '.' ? [] : [place]))
  const found = places.slice(1).flatMap((place, i) => {
    const before = places[i] as number
    if (text[place] === text[before]) return []
    const signs = [...text]
    ;[signs[before], signs[place]] = [signs[place] as string, signs[before] as string]
    return [Math.sign(written) * Number(signs.join(''))]
  })
  return [...new Set(found)]
}
