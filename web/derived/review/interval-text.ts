/** A number with its sign, to so many digits that count. */
export function signedNumber(value: number, digits = 3): string {
  const text = plainNumber(Math.abs(value), digits)
  return Number(text) === 0 ? text : `${value < 0 ? '−' : '+'}${text}`
}

/** A number to so many digits that count, without powers of ten as far as six decimals go. */
export function plainNumber(value: number, digits = 3): string {
  if (value === 0) return '0'
  const decimals = Math.max(0, Math.min(6, digits - 1 - Math.floor(Math.log10(Math.abs(value)))))
  return value.toFixed(decimals).replace('-', '−')
}

/** An estimate with its interval, digits by the width of it: `+2.1 (+0.3 to +3.9)`. */
export function withInterval(value: number, low: number, high: number): string {
  const width = high - low
  const decimals = width > 0 ? Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(width)))) : 2
  const text = (one: number) => {
    const size = Math.abs(one).toFixed(decimals)
    return Number(size) === 0 ? size : `${one < 0 ? '−' : '+'}${size}`
  }
  return `${text(value)} (${text(low)} to ${text(high)})`
}

/** A lag in hours or days with its interval; null: none is told. */
export function lagText(
  lag: {
    readonly lag: number
    readonly low: number
    readonly high: number
    readonly open: boolean
    readonly alike: number
  } | null,
): string {
  if (lag === null) return 'not told'
  const days = Math.max(Math.abs(lag.low), Math.abs(lag.high)) >= 72
  const text = (hours: number) => signedNumber(days ? hours / 24 : hours, 2)
  const more = [
    ...(lag.open ? ['may lie beyond what was looked at'] : []),
    ...(lag.alike > 0 ? [`${lag.alike} ${lag.alike === 1 ? 'other is' : 'others are'} as likely`] : []),
  ]
  return `${text(lag.lag)} ${days ? 'd' : 'h'} (${text(lag.low)} to ${text(lag.high)})${more.length > 0 ? `; ${more.join(', ')}` : ''}`
}
