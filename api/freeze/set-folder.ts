import { join } from 'node:path'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'

/** Folder of a set. */
export const setFolder = (folder: string, { site, id }: Pick<FrozenSet, 'site' | 'id'>): string =>
  join(folder, site, id)
