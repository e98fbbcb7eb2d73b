import { accept, type Outcome, reject } from '../outcome.ts'

/** Lengths between three studs, mm: A and B on one side of a crack, C on the other. */
export interface StudLengths {
  readonly ab: number
  readonly ac: number
  readonly bc: number
}

/** Movement of stud C: away from the line AB (the crack opens), and along it from A towards B. mm. */
export interface StudMovement {
  readonly openingMm: number
  readonly shearMm: number
}

/** Movement between two readings of three studs, by plane trigonometry. Refused where lengths make no triangle. */
export function studMovement(before: StudLengths, now: StudLengths): Outcome<StudMovement> {
  const [from, to] = [placeOfStud(before), placeOfStud(now)]
  if (from === null || to === null) {
    const { ab, ac, bc } = from === null ? before : now
    return reject({
      code: 'no-triangle',
      value: `${ab}, ${ac}, ${bc}`,
      expected: 'three lengths of which none is longer than the other two together',
      message: `Lengths ${ab}, ${ac} and ${bc} mm make no triangle. Look for a slip in one of the readings.`,
    })
  }
  return accept({ openingMm: to.y - from.y, shearMm: to.x - from.x })
}

/** Where C stands: `x` from A along AB, `y` away from it; null where the lengths make no triangle. */
export function placeOfStud({ ab, ac, bc }: StudLengths): { readonly x: number; readonly y: number } | null {
  const x = (ab * ab + ac * ac - bc * bc) / (2 * ab)
  const squared = ac * ac - x * x
  return ab > 0 && squared > 0 ? { x, y: Math.sqrt(squared) } : null
}

/** Change of opening and shear with AB, AC and BC, in that order; NaN where the lengths make no triangle. */
export function studDerivatives(lengths: StudLengths): {
  readonly opening: readonly number[]
  readonly shear: readonly number[]
} {
  const { ab, ac, bc } = lengths
  const { x, y } = placeOfStud(lengths) ?? { x: Number.NaN, y: Number.NaN }
  const shear = [(ab * ab - ac * ac + bc * bc) / (2 * ab * ab), ac / ab, -bc / ab]
  const opening = shear.map((byLength, length) => ((length === 1 ? ac : 0) - x * byLength) / y)
  return { opening, shear }
}
