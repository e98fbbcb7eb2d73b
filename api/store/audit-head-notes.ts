import type { ChainHead } from '#domain/audit/audit-entry.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import { writeAuditHead } from './audit-head.ts'

/** The end is noted outside the data file this often at most. */
const noteEveryMs = 1000

/** Notes where the audit record ends beside the data file: soon after it has grown, and at closing. */
export function noteHeads(
  dataFile: string,
  report: (line: string) => void,
): { note(head: ChainHead): void; noteNow(): Promise<void> } {
  let wanted: ChainHead | null = null
  let timer: NodeJS.Timeout | null = null
  let writing: Promise<void> = Promise.resolve()

  const write = () => {
    if (timer !== null) clearTimeout(timer)
    timer = null
    const head = wanted
    wanted = null
    if (head === null) return
    writing = writing
      .then(() => writeAuditHead(dataFile, head))
      .catch((cause: unknown) => {
        wanted ??= head
        report(
          `The end of the audit record could not be noted beside ${dataFile}; the record itself stands. Because: ${wordsOfFailure(cause)}`,
        )
      })
  }

  return {
    note(head) {
      wanted = head
      timer ??= setTimeout(write, noteEveryMs).unref()
    },
    async noteNow() {
      write()
      await writing
    },
  }
}
