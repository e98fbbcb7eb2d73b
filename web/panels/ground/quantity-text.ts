import type { Quantity } from '#domain/ground/analysis.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'

/** A figure with as many digits as its error leaves a meaning, and one more; four digits where no error is known. */
export function quantityText({ value, unit, standardError }: Quantity): string {
  if (standardError === null || !(standardError > 0)) return withUnit(fourDigits(value), unit)
  const decimals = Math.min(8, Math.max(0, 1 - Math.floor(Math.log10(standardError))))
  return withUnit(`${formatValue(value, decimals)} ± ${formatValue(standardError, decimals)}`, unit)
}

function fourDigits(value: number): string {
  if (!Number.isFinite(value)) return '–'
  const size = Math.abs(value)
  if (Number.isInteger(value) && size < 1e6) return formatValue(value, 0)
  if (size !== 0 && (size < 1e-3 || size >= 1e6)) {
    const [digits = '', power = ''] = value.toExponential(3).split('e')
    return `${digits} × 10${[...String(Number(power))].map((sign) => raised[sign] ?? sign).join('')}`.replace(
      '-',
      '−',
    )
  }
  return formatValue(value, Math.max(0, 3 - Math.floor(Math.log10(size || 1))))
}

const raised: Readonly<Record<string, string>> = Object.fromEntries(
  [...'0123456789-'].map((sign, place) => [sign, [...'⁰¹²³⁴⁵⁶⁷⁸⁹⁻'][place] ?? sign]),
)
