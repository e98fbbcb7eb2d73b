/** A number as people type it on the works: a comma or a point before the decimals, no grouping. Null: it is none. */
export function typedNumber(text: string): number | null {
  const trimmed = text.trim().replace('−', '-').replace(',', '.')
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : null
}
