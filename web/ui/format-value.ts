import { unitSymbol } from '#domain/units.ts'

/** A value with a true minus sign and its decimals; a dash where there is none. */
export function formatValue(value: number | null, decimals: number): string {
  if (value === null || !Number.isFinite(value)) return '–'
  const text = value.toFixed(decimals)
  return (Number(text) === 0 ? text.replace('-', '') : text).replace('-', '−')
}

/** Share of the first trigger level used, `64 %`; empty where no level is set. */
export function formatShare(share: number | null): string {
  return share === null ? '' : `${Math.round(share * 100)} %`
}

/** Decimals that suit a number's uncertainty: one digit of it is kept, at most what is published. */
export function readableDecimals(decimals: number, standardUncertainty: number | null): number {
  if (standardUncertainty === null || standardUncertainty <= 0) return Math.min(decimals, 2)
  return Math.min(decimals, Math.max(0, Math.ceil(-Math.log10(standardUncertainty))))
}

/** A number with its unit as people write it; signs of angle stand close (ISO 80000-1). */
export function withUnit(number: string, unit: string): string {
  const symbol = unitSymbol(unit)
  return /^[°′″]$/.test(symbol) ? `${number}${symbol}` : `${number} ${symbol}`.trimEnd()
}
