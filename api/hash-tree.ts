import { createHash, type Hash } from 'node:crypto'
import { readdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'

/** SHA-256 (hex) over names and contents of files and folders below `root`; names beginning with a dot do not count. */
export async function hashTrees(
  root: string,
  names: readonly string[],
  counts: (name: string) => boolean = () => true,
): Promise<string> {
  const hash = createHash('sha256')
  for (const name of names) await add(root, name, counts, hash)
  return hash.digest('hex')
}

async function add(root: string, name: string, counts: (name: string) => boolean, hash: Hash): Promise<void> {
  const path = join(root, name)
  if ((await stat(path)).isFile()) {
    if (counts(name)) hash.update(`${name}\n`).update(await readFile(path))
    return
  }
  for (const entry of (await readdir(path)).sort())
    if (!entry.startsWith('.')) await add(root, `${name}/${entry}`, counts, hash)
}
