/** Something of the network that a person must look into. */
export interface Finding {
  /** Logger, gateway, sensor or instrument that it is about, as it is selected on the plan; null: none of these. */
  readonly subject: string | null
  /** Whole sentence. */
  readonly says: string
  /** Whole sentence. */
  readonly toDo: string
  /** How much hangs on it, the more the higher; findings of one kind are told in that order. */
  readonly weight: number
}

export const byWeight = (findings: readonly Finding[]): readonly Finding[] =>
  findings.toSorted(
    (one, other) =>
      other.weight - one.weight ||
      (one.subject ?? '').localeCompare(other.subject ?? '', 'en', { numeric: true }),
  )

/** `A, B and C`, or the first few and how many more. */
export function namesOf(names: readonly string[], most = 4): string {
  const sorted = names.toSorted((one, other) => one.localeCompare(other, 'en', { numeric: true }))
  if (sorted.length > most) return `${sorted.slice(0, most).join(', ')} and ${sorted.length - most} more`
  const last = sorted.at(-1) ?? ''
  return sorted.length < 2 ? last : `${sorted.slice(0, -1).join(', ')} and ${last}`
}
