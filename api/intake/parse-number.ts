const powersOfTen = Float64Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`))

/**
 * Reads a decimal number straight from bytes: sign, digits, `mark` (byte of the decimal mark), digits, exponent,
 * blanks around it. Exactly the double that `Number()` gives for the same text with a decimal point.
 * NaN when the text is not such a number; ±Infinity when it is too large for a double.
 * Up to 15 digits and powers up to 10^22 are exact in one rounding (Clinger 1990); the rest goes through `Number()`.
 */
export function parseNumber(bytes: Uint8Array, start: number, end: number, mark: number): number {
  let at = start
  let last = end
  while (at < last && isBlank(bytes[at] as number)) at++
  while (last > at && isBlank(bytes[last - 1] as number)) last--
  const first = at
  let negative = false
  const sign = bytes[at]
  if (at < last && (sign === 0x2d || sign === 0x2b)) {
    negative = sign === 0x2d
    at++
  }
  let mantissa = 0
  let significant = 0
  const wholeFrom = at
  while (at < last) {
    const digit = (bytes[at] as number) - 0x30
    if (digit < 0 || digit > 9) break
    mantissa = mantissa * 10 + digit
    if (mantissa !== 0) significant++
    at++
  }
  let digits = at - wholeFrom
  let exponent = 0
  if (at < last && bytes[at] === mark) {
    const fractionFrom = ++at
    while (at < last) {
      const digit = (bytes[at] as number) - 0x30
      if (digit < 0 || digit > 9) break
      mantissa = mantissa * 10 + digit
      if (mantissa !== 0) significant++
      at++
    }
    exponent = fractionFrom - at
    digits -= exponent
  }
  if (digits === 0) return Number.NaN
  if (at < last) {
    if (((bytes[at] as number) | 0x20) !== 0x65) return Number.NaN
    at++
    let down = false
    if (at < last && (bytes[at] === 0x2d || bytes[at] === 0x2b)) down = bytes[at++] === 0x2d
    if (at === last) return Number.NaN
    let power = 0
    for (; at < last; at++) {
      const digit = (bytes[at] as number) - 0x30
      if (digit < 0 || digit > 9) return Number.NaN
      if (power < 100_000) power = power * 10 + digit
    }
    exponent += down ? -power : power
  }
  if (significant <= 15 && exponent >= -22 && exponent <= 22) {
    const value =
      exponent < 0
        ? mantissa / (powersOfTen[-exponent] as number)
        : mantissa * (powersOfTen[exponent] as number)
    return negative ? -value : value
  }
  let text = ''
  for (let i = first; i < last; i++) text += bytes[i] === mark ? '.' : String.fromCharCode(bytes[i] as number)
  return Number(text)
}

/** True for the ways in which programs write "not a number" and "infinite", in any case: NaN, -inf, 1.#QNAN … */
export function isNotFiniteText(text: string): boolean {
  return /^\s*[+-]?(nan|inf|infinity|\d\.#(qnan|snan|ind|inf)\d*|#num!|#div\/0!|overflow|over-?range)\s*$/i.test(
    text,
  )
}

function isBlank(byte: number): boolean {
  return byte === 0x20 || byte === 0x09
}
