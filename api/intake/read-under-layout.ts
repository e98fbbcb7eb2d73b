import type { Layout } from '#contract/layout.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { BatchHead } from '../store/store.ts'
import { createCellReader } from './cell-reader.ts'
import { chooseLayout } from './choose-layout.ts'
import type { KeptFileRequest } from './kept-file-request.ts'
import { createLoggerRegister } from './logger-register.ts'
import { proposeLayout } from './propose-layout.ts'
import { createQuarantineLog } from './quarantine-log.ts'
import { type FileHead, looksBinary, readHead } from './read-head.ts'
import { freshReadingState, type ReadingState, readKept } from './read-kept.ts'
import { readRows } from './read-rows.ts'
import { createReadingBlocks } from './reading-blocks.ts'
import type { TakingContext } from './row-taker.ts'
import { whyRefused } from './why-refused.ts'

const dayMs = 86_400_000

const earliestEpochMs = Date.UTC(1990, 0, 1)

/** Takes the readings of a kept file under the layout that is chosen for it; refused with the reason, or all of it. */
export async function readUnderLayout(
  request: KeptFileRequest,
  layouts: readonly Layout[],
): Promise<Receipt> {
  const { model, kept, fileName } = request
  if (kept.bytes === 0)
    return refuse(
      request,
      null,
      'The file is empty: it holds no bytes. Look whether the logger or the transfer stopped, and send it again.',
    )
  const head = await readHead(kept.path)
  if (head.bytes.every((byte) => byte === 0x20 || (byte >= 0x09 && byte <= 0x0d)) && head.whole)
    return refuse(
      request,
      null,
      'The file holds nothing but blanks and line ends. Look whether the logger or the transfer stopped, and send it again.',
    )
  if (looksBinary(head.bytes))
    return refuse(
      request,
      null,
      `The file is not text: a delimited text file was expected, and it begins with the bytes ${firstBytes(head)}. Export it as text from the logger's own program, then send that.`,
    )
  const chosen = chooseLayout(layouts, fileName, head, request.layoutId)
  if (!chosen.ok) {
    const reasons = chosen.issues.map(({ message }) => message).join(' ')
    const { summary } = proposeLayout({ model, layouts, fileName, head })
    return refuse(
      request,
      null,
      `${reasons} ${summary} Declare or choose the layout of this file, then take it again; it is kept.`,
    )
  }
  const layout = chosen.value
  const state = freshReadingState()
  const context = await openContext(request, layout, head.gzip)
  const { writer, log, blocks } = context
  try {
    const pieces = watched(
      readKept(kept.path, layout.encoding, state, { inflatedBytes: request.inflatedLimitBytes }),
      request,
      state,
      context,
    )
    const limits = {
      earliestMicros: earliestEpochMs * 1000,
      latestMicros: (request.presentEpochMs + dayMs) * 1000,
      receivedMicros: request.receivedAtEpochMs * 1000,
    }
    const read = await readRows(pieces, layout, limits, context, () => state.broken)
    const message = whyRefused(read, state, layout, context, request.inflatedLimitBytes)
    if (message !== null) {
      await blocks.settle()
      await writer.abandon()
      return refuse(request, layout, message)
    }
    await blocks.close()
    log.close()
    await writer.quarantine(log.take())
    return await writer.commit({
      absent: context.absent,
      ...(context.remarks.length > 0 && { message: context.remarks.join(' ') }),
    })
  } catch (cause) {
    await blocks.settle()
    await writer.abandon().catch(() => undefined)
    throw cause
  }
}

async function openContext(
  request: KeptFileRequest,
  layout: Layout,
  compressed: boolean,
): Promise<TakingContext> {
  const writer = await request.store.beginBatch(headOf(request, layout))
  return {
    site: request.model.facts.id,
    store: request.channels,
    register: createLoggerRegister(request.model),
    cells: createCellReader(layout),
    log: createQuarantineLog(),
    // A reading takes at least two bytes; compressed, there may be any number.
    blocks: createReadingBlocks(writer, compressed ? undefined : Math.ceil(request.kept.bytes / 2)),
    writer,
    absent: 0,
    remarks: [],
  }
}

/** Lets the file be read only while nobody has called it off, and says how far it is. */
async function* watched(
  pieces: AsyncIterable<Uint8Array>,
  { signal, onProgress, kept }: KeptFileRequest,
  state: ReadingState,
  { blocks }: TakingContext,
): AsyncGenerator<Uint8Array> {
  for await (const piece of pieces) {
    signal?.throwIfAborted()
    yield piece
    onProgress?.({
      stage: 'reading',
      bytesDone: state.bytesRead,
      bytesTotal: kept.bytes,
      readings: blocks.count,
    })
  }
}

function refuse(request: KeptFileRequest, layout: Layout | null, message: string): Promise<Receipt> {
  return request.store.refuseBatch(headOf(request, layout), message)
}

function headOf(
  { model, fileName, kept, receivedAtEpochMs, from }: KeptFileRequest,
  layout: Layout | null,
): BatchHead {
  return {
    site: model.facts.id,
    fileName,
    sha256: kept.sha256,
    bytes: kept.bytes,
    receivedAtEpochMs,
    from,
    layout: layout?.id ?? null,
    layoutVersion: layout?.version ?? null,
  }
}

const firstBytes = ({ bytes }: FileHead): string =>
  [...bytes.subarray(0, 8)].map((byte) => byte.toString(16).padStart(2, '0')).join(' ')
