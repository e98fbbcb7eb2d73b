import type { FieldEffect } from '#contract/field-entry.ts'
import type { Receipt } from '#contract/receipt.ts'
import { keptPath } from '../intake/keep-file.ts'
import {
  type EntryOf,
  eachByItself,
  effectOf,
  type FieldSite,
  type FieldTools,
  type NumberedEffect,
  ofKind,
  presentAt,
} from './field-site.ts'

/**
 * Takes memory files of loggers in once their bytes are here, as any other file: gaps fill, what is known already is
 * counted as repeated. One that was refused is not offered again by itself; taken again at the desk, under a layout
 * that was declared since, its entry learns of it.
 */
export async function takeMemoryFiles(
  tools: FieldTools,
  field: FieldSite,
): Promise<readonly NumberedEffect[]> {
  const pending = ofKind(field.entries, 'memory-file').filter(({ effect }) => effect?.outcome !== 'taken')
  return eachByItself(tools, pending, async (stored) => [
    { number: stored.number, effect: await takeMemoryFile(tools, field, stored) },
  ])
}

async function takeMemoryFile(
  { store, intake, touch }: FieldTools,
  { model }: FieldSite,
  stored: EntryOf<'memory-file'>,
): Promise<FieldEffect> {
  const { entry, missingAttachments } = stored
  const { logger, fileName } = entry.body
  const [attachment, ...others] = entry.attachments
  if (attachment === undefined || others.length > 0)
    return effectOf('refused', [
      `A memory file has one attachment, this entry has ${entry.attachments.length}. Write it anew with the file alone.`,
    ])
  if (missingAttachments.length > 0)
    return effectOf('kept', [`"${fileName}" has not arrived yet. It is taken in as soon as it does.`])
  const site = model.facts.id
  const { sha256 } = attachment
  const earlier = (await store.listBatches(site)).filter((receipt) => receipt.sha256 === sha256)
  const known = earlier.findLast(({ outcome }) => outcome !== 'refused') ?? earlier.at(-1)
  if (known !== undefined) return effectOfReceipt(known)
  const receipt = await intake.takeFile({
    site,
    fileName: fileName.replaceAll(/[/\\\0]/g, '_'),
    bytes: keptPath(intake.filesFolder, sha256),
    from: `memory of ${logger}, taken by ${entry.author.trim()}`,
    receivedAtEpochMs: presentAt(model, stored),
  })
  touch()
  return effectOfReceipt(receipt)
}

function effectOfReceipt(receipt: Receipt): FieldEffect {
  const { batch, outcome, message, accepted, repeated, conflicting, quarantined } = receipt
  if (outcome === 'refused') return effectOf('refused', [message], batch)
  return effectOf(
    'taken',
    [
      `${count(accepted, 'reading was', 'readings were')} new, ${repeated} known already.`,
      conflicting > 0
        ? `${conflicting} differ from what is on record: both are kept, and what was first is shown.`
        : null,
      quarantined > 0
        ? `${count(quarantined, 'reading was', 'readings were')} set aside; the imports say why.`
        : null,
      message,
    ],
    batch,
  )
}

const count = (number: number, one: string, many: string) => `${number} ${number === 1 ? one : many}`
