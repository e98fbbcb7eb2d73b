/**
 * Runs one call at a time; of those that come meanwhile only the newest is run next. Every answer is handed
 * on, so a running clock is followed as fast as answers come, where aborting would never let one finish.
 */
export function newestNext<A, T>(
  task: (arg: A) => Promise<T>,
  answered: (value: T, arg: A) => void,
  failed: (cause: unknown, arg: A) => void,
): (arg: A) => void {
  let running = false
  let waiting: { readonly arg: A } | null = null
  const run = async (arg: A) => {
    running = true
    try {
      answered(await task(arg), arg)
    } catch (cause) {
      failed(cause, arg)
    }
    running = false
    const next = waiting
    waiting = null
    if (next) void run(next.arg)
  }
  return (arg) => {
    if (running) waiting = { arg }
    else void run(arg)
  }
}
