import { readdir, readFile, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { brotliCompress, constants } from 'node:zlib'

const compressible = /\.(js|mjs|css|html|svg|wasm|json|ttf)$/
/** The database engine is 34 MB: the last few per cent would take a minute and a half. */
const hugeBytes = 5e6

/** Writes a `.br` beside every file of a folder that is worth it, so that no request has to wait for compression. */
export async function precompress(folder: string): Promise<void> {
  const compress = promisify(brotliCompress)
  for (const name of await readdir(folder, { recursive: true })) {
    const path = join(folder, name)
    if (!compressible.test(name) || !(await stat(path)).isFile()) continue
    const bytes = await readFile(path)
    const quality = bytes.length > hugeBytes ? 5 : 10
    await writeFile(
      `${path}.br`,
      await compress(bytes, {
        params: {
          [constants.BROTLI_PARAM_QUALITY]: quality,
          [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
        },
      }),
    )
  }
}
