import type { ChannelReceipt, Findings, StepSurroundings } from './step-surroundings.ts'

/**
 * Whether a reading of every channel came by the way it will always take since this work began: stamped since, so that
 * it is not an old one that arrived late, received since, and not stamped before a memory file that came by cable.
 */
export function judgeReceipt({
  logger,
  startedAtEpochMs,
  receipts,
  memoryTakenAtEpochMs,
}: Pick<StepSurroundings, 'logger' | 'startedAtEpochMs' | 'receipts' | 'memoryTakenAtEpochMs'>): Findings {
  if (receipts.size === 0) return { against: ['No channel is wired: nothing can arrive.'], remarks: [] }
  const channelsWhere = (holds: (receipt: ChannelReceipt | null) => boolean): string =>
    [...receipts].flatMap(([channel, receipt]) => (holds(receipt) ? [channel] : [])).join(', ')
  const since = (epochMs: number) => epochMs >= startedAtEpochMs
  const silent = channelsWhere((one) => one === null || !since(one.receivedAtEpochMs))
  const old = channelsWhere((one) => one !== null && since(one.receivedAtEpochMs) && !since(one.atEpochMs))
  const memory = memoryTakenAtEpochMs !== null && since(memoryTakenAtEpochMs) ? memoryTakenAtEpochMs : null
  const byCable =
    memory === null
      ? ''
      : channelsWhere((one) => one !== null && since(one.atEpochMs) && one.atEpochMs <= memory)
  return {
    against: [
      ...(silent === ''
        ? []
        : [`Nothing newer than the start of this work has arrived from channel ${silent}.`]),
      ...(old === ''
        ? []
        : [
            `What arrived from channel ${old} was read before this work began and came late. Wait for a reading taken since.`,
          ]),
      ...(byCable === ''
        ? []
        : [
            `The last reading of channel ${byCable} may have come by cable, with the memory file of ${logger}. Wait for one taken after that file.`,
          ]),
    ],
    remarks:
      memory === null || byCable !== ''
        ? []
        : [
            `A memory file of ${logger} was brought in since this work began; what counts here was read after it.`,
          ],
  }
}
