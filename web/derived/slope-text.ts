import { formatValue } from '../ui/format-value.ts'

/** A slope in mm per metre as engineers say it: `1:2000`; two digits, for its error allows no more. */
export function oneInText(mmPerMetre: number): string {
  return mmPerMetre > 0 ? `1:${Number((1000 / mmPerMetre).toPrecision(2))}` : 'level'
}

/** Both ways of saying it: `0.5 mm/m (1:2000)`. */
export const slopeText = (mmPerMetre: number): string =>
  `${formatValue(mmPerMetre, decimalsFor(mmPerMetre))} mm/m (${oneInText(mmPerMetre)})`

/** In place of the steepest where there is none: what is hatched may slope as much as any. */
export const nothingTold = 'nothing can be told here: not known, not level'

/** An area told, never without the area of which nothing is known. */
export const toldAreaText = (toldSquareMetres: number, untoldSquareMetres: number): string =>
  `${formatValue(toldSquareMetres, 0)} m² told; ${formatValue(untoldSquareMetres, 0)} m² not known`

/** Two digits of a number. */
export const decimalsFor = (value: number): number =>
  value === 0 ? 0 : Math.max(0, 1 - Math.floor(Math.log10(Math.abs(value))))
