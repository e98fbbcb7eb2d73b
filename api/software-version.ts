import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { hashTrees } from './hash-tree.ts'
import { projectFolder } from './settings.ts'

/** What decides what the program computes and draws, on the server and in the page. */
export const softwareSources = ['api', 'web', 'package-lock.json'] as const

/**
 * Version of this program by its package, and the first 12 hex digits of SHA-256 over its sources, as build metadata
 * of Semantic Versioning 2.0.0: other code has another version, the same code the same on every machine.
 */
export async function softwareVersion(root: string = projectFolder): Promise<string> {
  const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8')) as {
    readonly version: string
  }
  return `${version}+${(await hashTrees(root, softwareSources)).slice(0, 12)}`
}
