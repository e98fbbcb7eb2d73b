import { readFileSync } from 'node:fs'
import { rename, writeFile } from 'node:fs/promises'
import type { ChainHead } from '#domain/audit/audit-entry.ts'

/** File beside a data file that says where its audit record ends, so that an end that was cut off is noticed. */
export const auditHeadFile = (dataFile: string): string => `${dataFile}.audit-head`

/** Null: there is none. Throws where it cannot be read. */
export function readAuditHead(dataFile: string): ChainHead | null {
  let text: string
  try {
    text = readFileSync(auditHeadFile(dataFile), 'utf8')
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw cause
  }
  const match = /^(\d{1,15}) ([0-9a-f]{64})\n$/.exec(text)
  if (!match)
    throw new Error(
      `${auditHeadFile(dataFile)} does not say where the audit record ends: it was written over or damaged.`,
    )
  return { number: Number(match[1]), hash: String(match[2]) }
}

/** In place of the earlier one, whole or not at all. */
export async function writeAuditHead(dataFile: string, { number, hash }: ChainHead): Promise<void> {
  const file = auditHeadFile(dataFile)
  await writeFile(`${file}.new`, `${number} ${hash}\n`, { flush: true })
  await rename(`${file}.new`, file)
}
