import type { Layout } from '#contract/layout.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { BatchHead, Store } from '../store/store.ts'
import { createCellReader } from './cell-reader.ts'
import { chooseLayout } from './choose-layout.ts'
import { fieldReadingsLayout } from './field-readings-layout.ts'
import type { KeptFile } from './keep-file.ts'
import { createLoggerRegister } from './logger-register.ts'
import { proposeLayout } from './propose-layout.ts'
import { createQuarantineLog } from './quarantine-log.ts'
import { type FileHead, looksBinary, readHead } from './read-head.ts'
import { freshReadingState, type ReadingState, readKept } from './read-kept.ts'
import { type RowsRead, readRows } from './read-rows.ts'
import { createReadingBlocks } from './reading-blocks.ts'
import type { TakingContext } from './row-taker.ts'

export interface TakingProgress {
  readonly stage: 'keeping' | 'reading'
  readonly bytesDone: number
  /** Null while the length of the file is not known. */
  readonly bytesTotal: number | null
  readonly readings: number
}

export interface KeptFileRequest {
  readonly store: Store
  readonly channels: Pick<Store, 'channelNumbers'>
  readonly model: SiteModel
  readonly kept: KeptFile
  readonly fileName: string
  readonly from: string
  readonly receivedAtEpochMs: number
  readonly presentEpochMs: number
  readonly layoutId?: string
  readonly inflatedLimitBytes: number
  readonly onProgress?: (progress: TakingProgress) => void
  readonly signal?: AbortSignal
}

const dayMs = 86_400_000
const earliestEpochMs = Date.UTC(1990, 0, 1)

/** Takes the readings of a file that is kept already. Earlier batches of the same bytes are superseded by this one. */
export async function takeKept(request: KeptFileRequest): Promise<Receipt> {
  const { store, model, kept } = request
  const site = model.facts.id
  const declared = await store.listLayouts(site)
  const isBuiltIn = request.layoutId === fieldReadingsLayout.id
  const layouts = isBuiltIn ? [fieldReadingsLayout] : declared
  const whole = kept.known ? await store.findTaken(site, kept.sha256) : null
  if (whole && isSameLayout(whole, layouts, request.layoutId)) return repeatedReceipt(whole, request)
  const earlier = kept.known
    ? (await store.listBatches(site)).filter(({ sha256 }) => sha256 === kept.sha256)
    : []
  const receipt = await readUnderLayout(request, layouts)
  for (const { batch, outcome } of earlier) {
    if (receipt.outcome !== 'refused' || outcome === 'refused')
      await store.supersedeBatch(site, batch, receipt.batch)
  }
  return receipt
}

async function readUnderLayout(request: KeptFileRequest, layouts: readonly Layout[]): Promise<Receipt> {
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

function whyRefused(
  { rows, unreadable, wrong }: RowsRead,
  state: ReadingState,
  layout: Layout,
  { log }: TakingContext,
  inflatedLimitBytes: number,
): string | null {
  if (wrong) return `${wrong.message} The file is kept.`
  if (state.overLimit)
    return `The compressed file holds more than ${sizeText(inflatedLimitBytes)}, the most that is taken at once. Split it and send the parts; the file is kept.`
  if (state.broken !== null && rows === 0)
    return `The compressed file is damaged (${state.broken}) and no whole row came out of it. Send it again; what came is kept.`
  if (unreadable * 2 <= rows) return null
  const examples = log.first.map(
    ({ line, column, message }) => `Line ${line}${column ? `, column ${column}` : ''}: ${message}`,
  )
  return `Under layout "${layout.id}" ${unreadable} of the ${rows} rows read could not be understood, so it is probably not the layout of this file; nothing was taken. ${examples.slice(0, 2).join(' ')} Choose or declare another layout, then take the file again; it is kept.`
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

function isSameLayout(whole: Receipt, layouts: readonly Layout[], layoutId: string | undefined): boolean {
  if (layoutId === undefined) return true
  const asked = layouts.find(({ id }) => id === layoutId)
  return whole.layout === layoutId && whole.layoutVersion === asked?.version
}

/** The receipt for bytes that are all taken already: nothing is read again, and it says so. */
function repeatedReceipt(whole: Receipt, { fileName, from, receivedAtEpochMs }: KeptFileRequest): Receipt {
  return {
    ...whole,
    fileName,
    from,
    receivedAtEpochMs,
    accepted: 0,
    repeated: whole.accepted + whole.repeated + whole.conflicting,
    conflicting: 0,
    message: `The same bytes were taken before, as "${whole.fileName}" in batch ${whole.batch}: there is nothing new in them.`,
  }
}

const firstBytes = ({ bytes }: FileHead): string =>
  [...bytes.subarray(0, 8)].map((byte) => byte.toString(16).padStart(2, '0')).join(' ')

/** A number of bytes as people say it. */
export function sizeText(bytes: number): string {
  return bytes >= 1024 ** 3
    ? `${Number((bytes / 1024 ** 3).toFixed(1))} GiB`
    : `${Number((bytes / 1024 ** 2).toFixed(1))} MiB`
}
