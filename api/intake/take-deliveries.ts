import { readFile } from 'node:fs/promises'
import { basename, join, relative, resolve } from 'node:path'
import type { Receipt } from '#contract/receipt.ts'
import type { Intake } from './create-intake.ts'
import type { Keeping } from './keep-file.ts'
import { createRowScanner } from './scan-rows.ts'
import { cellText } from './scanned-row.ts'

export interface DeliveriesRequest {
  readonly intake: Pick<Intake, 'keep' | 'takeFile' | 'factsOf'>
  readonly site: string
  /** Holds `deliveries.csv` (file, receivedAt, from) and the files that it names. */
  readonly folder: string
  /** Share of the files that are done, 0 to 1. */
  readonly onProgress?: (share: number) => void
  readonly onReceipt?: (receipt: Receipt) => void
  readonly signal?: AbortSignal
}

/**
 * Takes the files of a made-up site in the order and at the instants at which they would have arrived.
 * Only for sites that say that they are invented: nobody may date the receipt of a real file.
 */
export async function takeDeliveries(request: DeliveriesRequest): Promise<readonly Receipt[]> {
  const { intake, site, folder, onProgress, onReceipt, signal } = request
  const facts = await intake.factsOf(site)
  if (!facts?.invented)
    throw new Error(`"${site}" is not an invented site, so its files take the time of their real receipt`)
  const deliveries = readDeliveries(await readFile(join(folder, 'deliveries.csv')))
  const outside = deliveries.find(({ file }) => relative(folder, resolve(folder, file)).startsWith('..'))
  if (outside) throw new Error(`deliveries.csv names "${outside.file}", which is outside its folder`)
  const receipts: Receipt[] = []
  // Waiting for the disk to keep a file takes as long as storing one, so the next is kept meanwhile.
  let keeping = keepNext(0)
  for (const [i, { file, receivedAtEpochMs, from }] of deliveries.entries()) {
    signal?.throwIfAborted()
    const bytes = await keeping
    keeping = keepNext(i + 1)
    const receipt = await intake.takeFile({
      site,
      fileName: basename(file),
      bytes,
      from,
      receivedAtEpochMs,
      ...(signal && { signal }),
    })
    receipts.push(receipt)
    onReceipt?.(receipt)
    onProgress?.((i + 1) / deliveries.length)
  }
  return receipts

  function keepNext(i: number): Promise<Keeping> {
    const delivery = deliveries[i]
    const kept = delivery
      ? intake.keep(join(folder, delivery.file))
      : Promise.resolve({ tooLargeAfterBytes: 0 })
    // It is met when its turn comes; until then, or if that never comes, it must not count as unhandled.
    kept.catch(() => undefined)
    return kept
  }
}

interface Delivery {
  readonly file: string
  readonly receivedAtEpochMs: number
  readonly from: string
}

function readDeliveries(bytes: Uint8Array): Delivery[] {
  const scanner = createRowScanner(',')
  scanner.push(bytes)
  scanner.finish()
  const { row } = scanner
  const cells = () => Array.from({ length: row.count }, (_, cell) => cellText(row, cell).trim())
  const headings = scanner.next() ? cells() : []
  const column = (name: string) => {
    const found = headings.indexOf(name)
    if (found < 0)
      throw new Error(`deliveries.csv needs the columns file, receivedAt, from; "${name}" is missing`)
    return found
  }
  const [file, receivedAt, from] = [column('file'), column('receivedAt'), column('from')]
  const deliveries: Delivery[] = []
  while (scanner.next()) {
    const texts = cells()
    if (texts.length === 1 && texts[0] === '') continue
    const receivedAtEpochMs = Date.parse(texts[receivedAt] ?? '')
    if (Number.isNaN(receivedAtEpochMs) || !texts[file])
      throw new Error(
        `deliveries.csv line ${row.line}: a file and an RFC 3339 instant are expected, found "${texts.join(',')}"`,
      )
    deliveries.push({ file: texts[file], receivedAtEpochMs, from: texts[from] ?? '' })
  }
  return deliveries
}
