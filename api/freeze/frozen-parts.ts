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

interface PartOpener {
  /**
   * Path of a part whose size is that of the set, and whose hash was when it was first opened here or had been written to
   * since. Throws `FrozenPartDamaged` otherwise.
   */
  open(set: FrozenSet, part: FrozenPart): Promise<string>
  /** Throws `FrozenPartDamaged` where a part is missing, of another size, or was found damaged before; nothing is read. */
  look(set: FrozenSet, part: FrozenPart): Promise<void>
}

export function createPartOpener(folderOf: (set: FrozenSet) => string): PartOpener {
  const verified = new Map<string, string>()
  const damaged = new Map<string, string>()
  const otherContent = (set: FrozenSet, part: FrozenPart) =>
    new FrozenPartDamaged(set.id, part.name, 'has another content than what was frozen.')

  /** Path, and what of the file changes with its content. */
  async function find(set: FrozenSet, part: FrozenPart) {
    const path = partPath(folderOf(set), part.name)
    const found = await stat(path).catch((cause: NodeJS.ErrnoException) => {
      if (cause.code === 'ENOENT' || cause.code === 'ENOTDIR') return null
      throw cause
    })
    if (!found?.isFile()) throw new FrozenPartDamaged(set.id, part.name, 'is missing.')
    if (found.size !== part.bytes)
      throw new FrozenPartDamaged(set.id, part.name, `has ${found.size} bytes instead of ${part.bytes}.`)
    const seen = `${found.ino} ${found.mtimeMs}`
    if (damaged.get(path) === seen) throw otherContent(set, part)
    return { path, seen }
  }

  return {
    async open(set, part) {
      const { path, seen } = await find(set, part)
      if (verified.get(path) === seen) return path
      if ((await sha256OfFile(path)) !== part.sha256) {
        damaged.set(path, seen)
        throw otherContent(set, part)
      }
      verified.set(path, seen)
      return path
    },
    async look(set, part) {
      await find(set, part)
    },
  }
}
