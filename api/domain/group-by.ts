/** Rows by a key, in the order in which keys first appear. (Map.groupBy wants a newer Node than 20.) */
export function groupBy<Row, Key>(
  rows: Iterable<Row>,
  keyOf: (row: Row) => Key,
): ReadonlyMap<Key, readonly Row[]> {
  const groups = new Map<Key, Row[]>()
  for (const row of rows) {
    const key = keyOf(row)
    const group = groups.get(key)
    if (group) group.push(row)
    else groups.set(key, [row])
  }
  return groups
}
