import { assert } from '#domain/assert.ts'

/** What a parameter of a query may be. Instants are epoch milliseconds, lists are of whole numbers. */
export type Parameter = number | string | null | readonly number[]

/**
 * Puts parameters into SQL as literals, one for each `?` outside quotes. DuckDB uses a table's row-group
 * statistics only for constants, and a prepared parameter is not one: a clock step would read every month.
 */
export function writeLiterals(sql: string, params: readonly Parameter[]): string {
  let used = 0
  const text = sql.replace(/'(?:[^']|'')*'|"(?:[^"]|"")*"|\?/g, (found) => {
    if (found !== '?') return found
    assert(used < params.length, `more ? marks than the ${params.length} parameters in: ${sql}`)
    return literal(params[used++] as Parameter)
  })
  assert(used === params.length, `${params.length - used} parameters are left over in: ${sql}`)
  return text
}

function literal(value: Parameter): string {
  if (value === null) return 'null'
  if (typeof value === 'string') {
    assert(!value.includes('\u0000'), 'a text parameter holds a NUL character')
    return `'${value.replaceAll("'", "''")}'`
  }
  if (typeof value === 'number') return numberLiteral(value)
  // An empty list matches nothing, as `in (null)` does.
  return value.length === 0 ? '(null)' : `(${value.map(numberLiteral).join(', ')})`
}

function numberLiteral(value: number): string {
  assert(Number.isFinite(value), `a number parameter is ${value}`)
  return String(value)
}
