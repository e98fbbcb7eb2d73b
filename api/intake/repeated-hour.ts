/** Rows of one clock that lie in an hour which the wall showed twice, in the order of the file. */
export interface RepeatedRun {
  readonly wallMicros: readonly number[]
  /** UTC microseconds of the second pass of each row. */
  readonly secondMicros: readonly number[]
  /** UTC microseconds by which each row had certainly been received. */
  readonly receivedMicros: readonly number[]
  /** Wall time of the last row before the run and of the first after it; null at the ends of the file. */
  readonly beforeMicros: number | null
  readonly afterMicros: number | null
}

/** A clock that runs fast may make a row look received before it was taken; by more than this it is no longer the clock. */
const clockToleranceMicros = 10 * 60e6

/**
 * Tells the two passes of a repeated hour apart: 1 or 2 for each row, 0 where it cannot be known.
 * A clock only goes on, so the one place where the wall time goes back, or stands still, is where the second pass
 * begins. A file written newest first is read backwards. Without such a place only a receipt earlier than
 * the second pass decides, for the first one; two such places or more decide nothing.
 */
export function tellPassesApart(run: RepeatedRun): readonly (0 | 1 | 2)[] {
  const { wallMicros, secondMicros, receivedMicros, beforeMicros, afterMicros } = run
  const byReceipt = wallMicros.map((_, i): 0 | 1 =>
    (receivedMicros[i] as number) < (secondMicros[i] as number) - clockToleranceMicros ? 1 : 0,
  )
  const low = Math.min(...bounds(wallMicros))
  const high = Math.max(...bounds(wallMicros))
  const onward = (beforeMicros ?? low - 1) < low && (afterMicros ?? high + 1) > high
  const backward = (beforeMicros ?? high + 1) > high && (afterMicros ?? low - 1) < low
  const alone = beforeMicros === null && afterMicros === null
  if (!onward && !backward) return byReceipt
  const inTime = onward ? wallMicros : [...wallMicros].reverse()
  const turns: number[] = []
  for (let i = 1; i < inTime.length; i++)
    if ((inTime[i] as number) <= (inTime[i - 1] as number)) turns.push(i)
  const turn = turns[0]
  if (turns.length !== 1 || turn === undefined) return byReceipt
  if (alone && inTime[turn] === inTime[turn - 1]) return byReceipt
  const passes = inTime.map((_, i): 1 | 2 => (i < turn ? 1 : 2))
  const inFileOrder = onward ? passes : passes.reverse()
  // A row received before its own second pass cannot belong to it: the order then proves nothing.
  return inFileOrder.some((pass, i) => pass === 2 && byReceipt[i] === 1) ? byReceipt : inFileOrder
}

function bounds(values: readonly number[]): [number, number] {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const value of values) {
    if (value < low) low = value
    if (value > high) high = value
  }
  return [low, high]
}
