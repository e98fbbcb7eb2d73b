import { type Table, Type, type Vector } from 'apache-arrow'
import { assert } from '#domain/assert.ts'

/** An answer as columns. Numbers are float64 with NaN where SQL says NULL; instants are epoch milliseconds. */
export interface Columns {
  readonly rows: number
  /** Throws when there is no such number column: a query and its reader disagree. */
  number(name: string): Float64Array
  text(name: string): readonly (string | null)[]
}

/** Makes columns of plain arrays, for answers that did not come from Arrow. */
export function columnsOf(
  rows: number,
  numbers: Readonly<Record<string, Float64Array>>,
  texts: Readonly<Record<string, readonly (string | null)[]>> = {},
): Columns {
  return {
    rows,
    number(name) {
      const found = numbers[name]
      assert(found !== undefined, `no number column ${name} among ${Object.keys(numbers).join(', ')}`)
      return found
    },
    text(name) {
      const found = texts[name]
      assert(found !== undefined, `no text column ${name} among ${Object.keys(texts).join(', ')}`)
      return found
    },
  }
}

/** Takes an Arrow table apart. TIMESTAMP becomes epoch milliseconds, BIGINT the nearest float64. */
export function toColumns(table: Table): Columns {
  const numbers: Record<string, Float64Array> = {}
  const texts: Record<string, (string | null)[]> = {}
  for (const field of table.schema.fields) {
    const vector = table.getChild(field.name)
    assert(vector !== null, `Arrow table without its own column ${field.name}`)
    if (field.typeId === Type.Utf8) texts[field.name] = Array.from(vector) as (string | null)[]
    else numbers[field.name] = toFloats(vector)
  }
  return columnsOf(table.numRows, numbers, texts)
}

/** Arrow's TimeUnit: second, millisecond, microsecond, nanosecond, as milliseconds each. */
const unitMilliseconds = [1000, 1, 1e-3, 1e-6]

function toFloats(vector: Vector): Float64Array {
  const out = new Float64Array(vector.length)
  const scale =
    vector.type.typeId === Type.Timestamp
      ? (unitMilliseconds[(vector.type as { unit: number }).unit] ?? 1)
      : 1
  let at = 0
  for (const chunk of vector.data) {
    const values = chunk.values as ArrayLike<number | bigint>
    if (chunk.typeId === Type.Bool || !values) {
      const part = vector.slice(at, at + chunk.length)
      for (let i = 0; i < chunk.length; i++) out[at + i] = Number(part.get(i) ?? Number.NaN)
    } else {
      for (let i = 0; i < chunk.length; i++) out[at + i] = Number(values[i]) * scale
      if (chunk.nullCount > 0)
        for (let i = 0; i < chunk.length; i++) if (!isValid(chunk, i)) out[at + i] = Number.NaN
    }
    at += chunk.length
  }
  return out
}

function isValid(chunk: { nullBitmap: Uint8Array; offset: number }, row: number): boolean {
  const bit = chunk.offset + row
  return ((chunk.nullBitmap[bit >> 3] ?? 255) & (1 << (bit & 7))) !== 0
}
