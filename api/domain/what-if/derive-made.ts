import { deriveValues } from '../reduction/derive-values.ts'
import { quality } from '../reduction/quality.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from '../reduction/rules/derived-bundle.ts'
import type { ReducedSeries } from './reduced-series.ts'

/**
 * The series that a bundle makes from values of its members, by `deriveValues`, at every instant at which any member was
 * read; members that are held answer with their last survey while it is young enough. Bundles whose members are all held
 * have a value only where each member has one, as their query has it.
 */
export function deriveMade(
  bundle: DerivedBundle,
  reduced: ReadonlyMap<string, ReducedSeries>,
): ReadonlyMap<string, ReducedSeries> {
  const members = bundle.slots.flatMap(({ series, maximumAgeMinutes }, slot) =>
    series.flatMap((id): Member[] => {
      const of = reduced.get(id)
      return of ? [{ id, slot, of, maximumAgeMinutes, next: 0, survey: -1 }] : []
    }),
  )
  const allHeld = bundle.slots.every(({ maximumAgeMinutes }) => maximumAgeMinutes !== null)
  const instants = instantsOf(
    members.filter((one) => allHeld || one.maximumAgeMinutes === null),
    allHeld,
  )
  const rows = bundle.outputs.map((output) => ({
    value: [] as number[],
    quality: [] as number[],
    receivedAfterSeconds: [] as number[],
    uses: slotsOf(bundle, output),
  }))
  const kept: number[] = []
  const read = new Map<string, MemberValue>()
  for (const instant of instants) {
    read.clear()
    const receipts = new Map<number, number>()
    for (const member of members) {
      const at = entryAt(member, instant)
      if (at < 0) continue
      const { of, maximumAgeMinutes } = member
      const value = of.value[at] as number
      read.set(member.id, { value: Number.isNaN(value) ? null : value, quality: of.quality[at] as number })
      const age = maximumAgeMinutes === null ? 0 : (instant - (of.atEpochMs[at] as number)) / 1000
      const received = Math.max(0, (of.receivedAfterSeconds[at] as number) - age)
      receipts.set(member.slot, Math.max(receipts.get(member.slot) ?? 0, received))
    }
    if (allHeld && !bundle.slots.every(({ series }) => series.some((id) => read.has(id)))) continue
    kept.push(instant)
    for (const [output, made] of deriveValues(bundle, read).entries()) {
      const row = rows[output]
      if (!row) continue
      const used = [...receipts].flatMap(([slot, seconds]) => (row.uses.has(slot) ? [seconds] : []))
      const receivedAfterSeconds = Math.max(...(used.length > 0 ? used : receipts.values()))
      const late = receivedAfterSeconds > bundle.lateAfterMinutes * 60 ? quality.receivedLate : 0
      row.value.push(made.value ?? Number.NaN)
      row.quality.push((made.quality & ~quality.receivedLate) | late)
      row.receivedAfterSeconds.push(receivedAfterSeconds)
    }
  }
  const atEpochMs = Float64Array.from(kept)
  return new Map(
    bundle.outputs.map(({ id, decimals }, output) => [
      id,
      {
        atEpochMs,
        value: Float64Array.from(rows[output]?.value ?? []),
        quality: Uint8Array.from(rows[output]?.quality ?? []),
        receivedAfterSeconds: Float64Array.from(rows[output]?.receivedAfterSeconds ?? []),
        decimals,
      },
    ]),
  )
}

interface Member {
  readonly id: string
  readonly slot: number
  readonly of: ReducedSeries
  readonly maximumAgeMinutes: number | null
  /** First entry after the last instant asked for. */
  next: number
  /** Last entry with a value before that. */
  survey: number
}

/** Slots that an output is received with: of a combination its own terms', else all. */
function slotsOf({ rule, slots }: DerivedBundle, { of }: DerivedOutput): ReadonlySet<number> {
  if (rule.kind !== 'combination') return new Set(slots.keys())
  const combinations = of === 'whole' ? (rule.greatestOf ?? []) : [of]
  return new Set(combinations.flatMap((one) => rule.combinations[one]?.terms.map(({ slot }) => slot) ?? []))
}

/** Entry that a member answers an instant with, instants growing; −1: none. */
function entryAt(member: Member, instant: number): number {
  const { of, maximumAgeMinutes } = member
  while (member.next < of.atEpochMs.length && (of.atEpochMs[member.next] as number) <= instant) {
    if (!Number.isNaN(of.value[member.next] as number)) member.survey = member.next
    member.next++
  }
  if (maximumAgeMinutes === null) {
    const last = member.next - 1
    return last >= 0 && of.atEpochMs[last] === instant ? last : -1
  }
  const { survey } = member
  if (survey < 0) return -1
  return instant - (of.atEpochMs[survey] as number) <= maximumAgeMinutes * 60_000 ? survey : -1
}

function instantsOf(members: readonly Member[], withValueOnly: boolean): readonly number[] {
  const all = new Set<number>()
  for (const { of } of members)
    for (let at = 0; at < of.atEpochMs.length; at++)
      if (!withValueOnly || !Number.isNaN(of.value[at] as number)) all.add(of.atEpochMs[at] as number)
  return [...all].sort((one, other) => one - other)
}
