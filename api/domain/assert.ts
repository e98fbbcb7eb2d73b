/** For our own mistakes only: states what must hold, with the value that broke it. Never caught. */
export function assert(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`assertion failed: ${message}`)
}
