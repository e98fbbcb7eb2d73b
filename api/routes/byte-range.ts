/**
 * A single byte range of a `Range` header (RFC 9110 section 14), inclusive at both ends.
 * Undefined: no range, or one in a form that may be ignored (several ranges, another unit).
 */
export function parseByteRange(
  header: string | undefined,
  size: number,
): { start: number; end: number } | 'unsatisfiable' | undefined {
  const match = /^bytes=(\d*)-(\d*)$/.exec(header?.trim() ?? '')
  if (!match || (match[1] === '' && match[2] === '')) return undefined
  if (match[1] === '') {
    const length = Number(match[2])
    return length === 0 || size === 0 ? 'unsatisfiable' : { start: Math.max(0, size - length), end: size - 1 }
  }
  const start = Number(match[1])
  const end = match[2] === '' ? size - 1 : Math.min(Number(match[2]), size - 1)
  if (match[2] !== '' && Number(match[2]) < start) return undefined
  return start >= size ? 'unsatisfiable' : { start, end }
}
