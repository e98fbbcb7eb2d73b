/** Readings of one channel in order of time: parallel arrays. */
export interface ChannelReadings {
  readonly atEpochMs: Float64Array
  /** NaN: read, but without a value. */
  readonly value: Float64Array
  /** From its instant to receipt; NaN: within a quarter of an hour. */
  readonly receivedAfterSeconds: Float64Array
}

export interface ChannelPlan {
  /** Stretch in which it was to be read, from inclusive, until exclusive. */
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly intervalMinutes: number
  /** A reading that is received later than this after it was taken is late. */
  readonly lateAfterMinutes: number
}

/** What was due of a channel in a stretch, and what came. `due` = `inTime` + `late` + `missing`. */
export interface ChannelCompleteness {
  readonly due: number
  readonly inTime: number
  readonly late: number
  readonly missing: number
  /** Readings that came in all, repeats within one interval and those beyond the plan among them. */
  readonly readings: number
  /** Of these, without an engineering value: nothing can be concluded from them. */
  readonly withoutValue: number
  /** (inTime + late) / due; null where nothing was due. */
  readonly share: number | null
  /** Longest stretch without a value, the edges of the plan counting as ends; null where the plan is empty. */
  readonly longestGap: { readonly fromEpochMs: number; readonly untilEpochMs: number } | null
}

/** Longer intervals are rounds of people, who come when they can: readings are counted, not matched with instants. */
const longestClockedMinutes = 1440

/**
 * Counts a channel against its plan. Up to a day's interval a reading is due at every whole interval of UTC and fills
 * the one that it lies nearest to, once; beyond that, as many are due as whole intervals fit into the stretch.
 */
export function channelCompleteness(readings: ChannelReadings, plan: ChannelPlan): ChannelCompleteness {
  const { fromEpochMs, untilEpochMs, intervalMinutes, lateAfterMinutes } = plan
  const intervalMs = intervalMinutes * 60_000
  const clocked = intervalMinutes <= longestClockedMinutes
  const slotOf = (atEpochMs: number) => Math.round(atEpochMs / intervalMs)
  const first = Math.ceil(fromEpochMs / intervalMs)
  const end = Math.ceil(untilEpochMs / intervalMs)
  const due = clocked
    ? Math.max(0, end - first)
    : Math.max(0, Math.floor((untilEpochMs - fromEpochMs) / intervalMs))
  // Slot by slot: the best that came of it.
  const inTimeOf = new Map<number, boolean>()
  let count = 0
  let withoutValue = 0
  let lastValueEpochMs = fromEpochMs
  let longest = { fromEpochMs, untilEpochMs: fromEpochMs }
  const endGap = (atEpochMs: number) => {
    if (atEpochMs - lastValueEpochMs > longest.untilEpochMs - longest.fromEpochMs)
      longest = { fromEpochMs: lastValueEpochMs, untilEpochMs: atEpochMs }
    lastValueEpochMs = atEpochMs
  }
  for (let row = 0; row < readings.atEpochMs.length; row++) {
    const at = readings.atEpochMs[row] as number
    const slot = clocked ? slotOf(at) : row
    const within = clocked ? slot >= first && slot < end : at >= fromEpochMs && at < untilEpochMs
    if (!within) continue
    count++
    const afterSeconds = readings.receivedAfterSeconds[row] as number
    const inTime = !(afterSeconds > lateAfterMinutes * 60)
    inTimeOf.set(slot, inTime || (inTimeOf.get(slot) ?? false))
    if (Number.isFinite(readings.value[row])) endGap(Math.min(Math.max(at, fromEpochMs), untilEpochMs))
    else withoutValue++
  }
  if (untilEpochMs > fromEpochMs) endGap(untilEpochMs)
  const came = [...inTimeOf.values()]
  const inTimeCount = Math.min(due, came.filter((one) => one).length)
  const late = Math.min(due - inTimeCount, came.filter((one) => !one).length)
  return {
    due,
    inTime: inTimeCount,
    late,
    missing: due - inTimeCount - late,
    readings: count,
    withoutValue,
    share: due === 0 ? null : (inTimeCount + late) / due,
    longestGap: untilEpochMs > fromEpochMs ? longest : null,
  }
}
