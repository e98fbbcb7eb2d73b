import { createHash } from 'node:crypto'
import { readFile, stat } from 'node:fs/promises'
import type { IssuedReport } from '#domain/report/report.ts'
import { keptPath } from '../intake/keep-file.ts'

type HeldFile = IssuedReport['files'][number]

export interface ReportFiles {
  /** Bytes of a file as they were issued; null: it is missing or is not what was issued. */
  read(held: HeldFile): Promise<Uint8Array | null>
  /** Whether it is missing, of another size, or was found damaged before; it is not read for that. */
  isLost(held: HeldFile): Promise<boolean>
}

/** Files of issued reports, kept under their hashes. */
export function createReportFiles(filesFolder: string): ReportFiles {
  const damaged = new Map<string, number>()
  return {
    async read({ sha256 }) {
      const path = keptPath(filesFolder, sha256)
      const mtimeMs = (await stat(path).catch(absent))?.mtimeMs
      const bytes = await readFile(path).catch(absent)
      if (bytes === null || mtimeMs === undefined) return null
      if (createHash('sha256').update(bytes).digest('hex') === sha256) return bytes
      damaged.set(path, mtimeMs)
      return null
    },
    async isLost({ sha256, bytes }) {
      const path = keptPath(filesFolder, sha256)
      const found = await stat(path).catch(absent)
      return !found?.isFile() || found.size !== bytes || damaged.get(path) === found.mtimeMs
    },
  }
}

function absent(cause: NodeJS.ErrnoException): null {
  if (cause.code === 'ENOENT' || cause.code === 'ENOTDIR') return null
  throw cause
}
