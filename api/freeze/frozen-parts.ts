import { stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { FrozenPart, FrozenSet } from '#domain/meeting/frozen-set.ts'
import { sha256OfFile } from './file-hash.ts'

/** Documents of a set, beside which its slice files are. */
export const frozenDocuments = ['site', 'state', 'alerts', 'network', 'slices', 'records'] as const
export type FrozenDocument = (typeof frozenDocuments)[number]

/** A part of a frozen set is not what was frozen; nothing takes its place. */
export class FrozenPartDamaged extends Error {
  override name = 'FrozenPartDamaged'
  readonly set: string
  readonly part: string

  constructor(set: string, part: string, why: string) {
    super(`Part ${part} of the frozen data set ${set} ${why}`)
    this.set = set
    this.part = part
  }
}

/** Where a part lies in the folder of its set. */
export const partPath = (folder: string, name: string): string =>
  isDocument(name) ? join(folder, `${name}.json`) : join(folder, 'slices', name)

const isDocument = (name: string): name is FrozenDocument => frozenDocuments.some((one) => one === name)

/**
 * Gives paths of parts whose size is that of the set, and whose hash was when they were first opened here or had been
 * written to since. Throws `FrozenPartDamaged` otherwise.
 */
export function createPartOpener(
  folderOf: (set: FrozenSet) => string,
): (set: FrozenSet, part: FrozenPart) => Promise<string> {
  const verified = new Map<string, string>()
  return async (set, part) => {
    const path = partPath(folderOf(set), part.name)
    const found = await stat(path).catch((cause: NodeJS.ErrnoException) => {
      if (cause.code === 'ENOENT' || cause.code === 'ENOTDIR') return null
      throw cause
    })
    if (!found?.isFile()) throw new FrozenPartDamaged(set.id, part.name, 'is missing.')
    if (found.size !== part.bytes)
      throw new FrozenPartDamaged(set.id, part.name, `has ${found.size} bytes instead of ${part.bytes}.`)
    const seen = `${found.ino} ${found.mtimeMs}`
    if (verified.get(path) === seen) return path
    if ((await sha256OfFile(path)) !== part.sha256)
      throw new FrozenPartDamaged(set.id, part.name, 'has another content than what was frozen.')
    verified.set(path, seen)
    return path
  }
}
