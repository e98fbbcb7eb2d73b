import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { projectFolder } from './settings.ts'

/** Version of this program, by its package. */
export async function softwareVersion(): Promise<string> {
  const { version } = JSON.parse(await readFile(join(projectFolder, 'package.json'), 'utf8')) as {
    readonly version: string
  }
  return version
}
