import { unitSymbol } from '../units.ts'

/** A number as people read it: up to 10 significant digits, thousands parted from 10 000 on, true minus sign. */
export function numberText(value: number): string {
  const rounded = Number(value.toPrecision(10))
  if (rounded === 0) return '0'
  const magnitude = Math.abs(rounded)
  const sign = rounded < 0 ? '−' : ''
  if (magnitude < 1e-4 || magnitude >= 1e12) return sign + scientific(magnitude)
  const [whole = '0', fraction] = plain(magnitude).split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, narrowNoBreakSpace) : whole
  return sign + grouped + (fraction ? `.${fraction}` : '')
}

/** A number in brackets when it is negative, for use after an operator. */
export const operandText = (value: number): string =>
  value < 0 ? `(${numberText(value)})` : numberText(value)

/** A number with its unit. Degrees of arc stand close to the number. */
export function quantityText(value: number, unit: string): string {
  const symbol = unitSymbol(unit)
  return symbol === '°' || symbol === '′' || symbol === '″'
    ? `${numberText(value)}${symbol}`
    : `${numberText(value)} ${symbol}`
}

const narrowNoBreakSpace = '\u202f'

const plain = (magnitude: number): string => {
  const text = String(magnitude)
  return text.includes('e') ? magnitude.toFixed(20).replace(/0+$/, '') : text
}

const raised: Readonly<Record<string, string>> = {
  '-': '⁻',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
}

function scientific(magnitude: number): string {
  const [mantissa = '', exponent = ''] = magnitude.toExponential().split('e')
  return `${mantissa} × 10${[...exponent.replace('+', '')].map((sign) => raised[sign] ?? sign).join('')}`
}
