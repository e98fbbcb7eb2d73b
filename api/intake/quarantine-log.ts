import type { Quarantined } from '#contract/receipt.ts'

export type Entry = Omit<Quarantined, 'batch'>
export type QuarantineCode = Quarantined['code']

export interface QuarantineLog {
  /** Sets readings aside. `message` is only made when the entry is written out. */
  add(
    code: QuarantineCode,
    line: number,
    column: string | null,
    value: string,
    readings: number,
    message: () => string,
  ): void
  /** Entries ready to be stored; empties the list. */
  take(): Entry[]
  /** Entries that stand for those beyond the number written out singly. */
  close(): void
  /** Entries ready and not yet taken. */
  readonly waiting: number
  readonly readings: number
  readonly entries: number
  /** The first entries, for a sentence about the file as a whole. */
  readonly first: readonly Entry[]
}

const singlyPerColumn = 100
const singlyPerCode = 1000

/**
 * Collects what is set aside. Of each code and column the first hundred are written out one by one (of a code a
 * thousand); the rest are summed into one entry that says how many and where the last was, so a file
 * of nothing but faults stays readable, and every reading is still counted.
 */
export function createQuarantineLog(): QuarantineLog {
  const perColumn = new Map<string, { written: number; summed: Entry | null; last: number }>()
  const perCode = new Map<QuarantineCode, number>()
  const first: Entry[] = []
  let pending: Entry[] = []
  let readings = 0
  let entries = 0

  function write(entry: Entry): void {
    pending.push(entry)
    entries++
    if (first.length < 5) first.push(entry)
  }

  return {
    add(code, line, column, value, count, message) {
      readings += count
      const key = `${code}\n${column ?? ''}`
      let known = perColumn.get(key)
      if (known === undefined) {
        known = { written: 0, summed: null, last: line }
        perColumn.set(key, known)
      }
      known.last = line
      const ofCode = perCode.get(code) ?? 0
      const limit = column === null ? singlyPerCode : singlyPerColumn
      if (known.written < limit && ofCode < singlyPerCode) {
        known.written++
        perCode.set(code, ofCode + 1)
        write({ line, column, code, message: message(), value: value.slice(0, 200), readings: count })
      } else if (known.summed) known.summed = { ...known.summed, readings: known.summed.readings + count }
      else
        known.summed = { line, column, code, message: message(), value: value.slice(0, 200), readings: count }
    },
    take() {
      const taken = pending
      pending = []
      return taken
    },
    close() {
      for (const known of perColumn.values()) {
        if (!known.summed) continue
        const more = `Further entries like this one, from line ${known.summed.line} to line ${known.last}. The first: ${known.summed.message}`
        write({ ...known.summed, message: more })
        known.summed = null
      }
    },
    get waiting() {
      return pending.length
    },
    get readings() {
      return readings
    },
    get entries() {
      return entries
    },
    first,
  }
}
