import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import webPush from 'web-push'
import { z } from 'zod'

/** By which push services know this server (VAPID, RFC 8292), base64url. Devices subscribe to the public one. */
export interface PushKeys {
  readonly publicKey: string
  readonly privateKey: string
}

const base64url = (bytes: number) =>
  z.string().refine((text) => Buffer.from(text, 'base64url').length === bytes, `${bytes} bytes expected`)
const keysSchema = z.strictObject({ publicKey: base64url(65), privateKey: base64url(32) })

/**
 * Made at the first start and kept in the data folder, readable by the server's own user only. A device that subscribed
 * is told under these keys alone: without the file every device has to subscribe anew. Asked for once a process.
 */
export async function readOrMakePushKeys(dataFolder: string): Promise<PushKeys> {
  const path = join(dataFolder, 'push-keys.json')
  await mkdir(dataFolder, { recursive: true })
  const text = await readFile(path, 'utf8').catch(async (cause: NodeJS.ErrnoException) => {
    if (cause.code !== 'ENOENT') throw new Error(`The keys at ${path} cannot be read.`, { cause })
    const fresh = JSON.stringify(webPush.generateVAPIDKeys())
    await writeFile(path, `${fresh}\n`, { mode: 0o600, flag: 'wx' })
    return fresh
  })
  try {
    return keysSchema.parse(JSON.parse(text))
  } catch {
    // The cause would hold the keys.
    throw new Error(
      `${path} holds no keys for pushes. Put it back from a copy; or remove it, and every device has to ask anew to be told.`,
    )
  }
}
