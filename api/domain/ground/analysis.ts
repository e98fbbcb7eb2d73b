/** A number that an analysis rests on or finds. */
export interface Quantity {
  readonly name: string
  readonly value: number
  /** UCUM code; empty for a pure number. */
  readonly unit: string
  /** Null where the number was given, or its error is not known. */
  readonly standardError: number | null
}

export interface LeftOut<Item> {
  readonly item: Item
  /** Whole sentence. */
  readonly reason: string
}

/** What every analysis says of itself beside its own result. `Item` is the point or the reading it rests on. */
export interface Analysis<Item, Used extends Item = Item> {
  /** Whole sentence, with where the method comes from. */
  readonly method: string
  /** What was stated or chosen. */
  readonly parameters: readonly Quantity[]
  readonly found: readonly Quantity[]
  readonly used: readonly Used[]
  readonly leftOut: readonly LeftOut<Item>[]
  /** Whole sentences: what the method does not know, to which side it errs, what to heed before trusting it. */
  readonly remarks: readonly string[]
}

export const given = (name: string, value: number, unit: string): Quantity => ({
  name,
  value,
  unit,
  standardError: null,
})

export const estimated = (
  name: string,
  value: number,
  unit: string,
  standardError: number | null,
): Quantity => ({ name, value, unit, standardError })

/** Parts items into those to use and those left out, each of these with its reason. */
export function sortOut<Item, Used extends Item = Item>(
  items: readonly Item[],
  reasonToLeaveOut: (item: Item) => string | null,
): { readonly used: readonly Used[]; readonly leftOut: readonly LeftOut<Item>[] } {
  const judged = items.map((item) => ({ item, reason: reasonToLeaveOut(item) }))
  return {
    used: judged.flatMap(({ item, reason }) => (reason === null ? [item as Used] : [])),
    leftOut: judged.flatMap(({ item, reason }) => (reason === null ? [] : [{ item, reason }])),
  }
}

/** Why a point with a value known or not is left out; null where it is not. */
export function reasonWithoutValue(value: number | null, late: boolean): string | null {
  if (value === null || !Number.isFinite(value)) return 'It has no value.'
  return late ? 'Its last reading is late: it has no current value.' : null
}
