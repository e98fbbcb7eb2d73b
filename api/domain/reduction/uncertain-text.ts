/** A value and its standard uncertainty as people read them, to the same place. */
export interface UncertainText {
  readonly value: string
  readonly uncertainty: string
}

/**
 * The uncertainty to two significant figures, the value to the same place (JCGM 100, 7.2.6); what is far below it reads
 * as 0 at that place. Digits only: values are kept whole in data. Null where no uncertainty above 0 is known.
 */
export function uncertainText(value: number, standardUncertainty: number | null): UncertainText | null {
  if (standardUncertainty === null || !(standardUncertainty > 0) || !Number.isFinite(standardUncertainty))
    return null
  // Rounded first: 0.0996 is 0.10, whose second figure stands one place higher than that of 0.0996.
  const rounded = Number(standardUncertainty.toPrecision(2))
  const decimals = 1 - Math.floor(Math.log10(rounded))
  return { value: toPlace(value, decimals), uncertainty: toPlace(rounded, decimals) }
}

/** `decimals` below 0: tens, hundreds. `toFixed` knows no more than 100. */
function toPlace(value: number, decimals: number): string {
  const place = 10 ** Math.max(0, -decimals)
  const text = (Math.round(value / place) * place).toFixed(0)
  const shown = decimals > 0 ? value.toFixed(Math.min(decimals, 100)) : text
  return (Number(shown) === 0 ? shown.replace('-', '') : shown).replace('-', '−')
}
