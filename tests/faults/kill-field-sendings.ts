import type { FieldEntry } from '#domain/field/field-entry.ts'
import { fieldEntry, note } from '../support/field-entries.ts'
import { coverageTest, packets, reading, receiverRecord } from '../support/field-site.ts'

export const killFieldSite = 'test-quay'
const morning = Date.UTC(2027, 9, 20, 8)

/** What a device sends as its k-th: a reading, a note, a coverage test and what the receiver recorded of it. */
export function sending(k: number): readonly FieldEntry[] {
  const bodies = [
    reading('SP-1', morning + k * 1000, k),
    note(`note ${k}`),
    coverageTest(`T-${k}`, packets(9, 10, null)),
    receiverRecord(`T-${k}`, [9, k % 11]),
  ]
  return bodies.map((body, i) => fieldEntry(4 * k + i + 1, body, { site: killFieldSite }))
}
