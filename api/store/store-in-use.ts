import { wordsOfFailure } from '../words-of-failure.ts'
/** The data file is open elsewhere: one process at a time may hold it. */
export class StoreInUse extends Error {
  readonly code = 'store-in-use'
  readonly file: string

  constructor(file: string, holder: string, cause?: unknown) {
    super(
      `The data file ${file} is in use by ${holder}. Stop that one first, or start this one with another data folder.`,
      { cause },
    )
    this.name = 'StoreInUse'
    this.file = file
  }
}

/** Who has the file that DuckDB could not open; null when that is not why. */
export function lockHolder(cause: unknown): string | null {
  const text = wordsOfFailure(cause)
  if (!/could not set lock/i.test(text)) return null
  const pid = /PID (\d+)/.exec(text)?.[1]
  return pid === undefined ? 'another process' : `another process (PID ${pid})`
}
