import { placeOfReading, type ReadingPlace } from '#domain/field/reading-place.ts'
import { groupBy } from '#domain/group-by.ts'
import { formatDelimitedText } from '#domain/site/delimited-text.ts'
import { formatInstant } from '#domain/site/instant-text.ts'
import { fieldReadingsHeadings, fieldReadingsLayout } from '../intake/field-readings-layout.ts'
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

interface Placed extends ReadingPlace {
  readonly stored: EntryOf<'reading'>
}

/**
 * Takes readings by hand in through intake, as a file a sending: made byte for byte from its entries, kept, with a
 * receipt and a batch. What is offered again is counted as repeated there, so being killed in between doubles nothing.
 */
export async function takeReadings(tools: FieldTools, field: FieldSite): Promise<readonly NumberedEffect[]> {
  const { model } = field
  const pending = ofKind(field.entries, 'reading').filter(
    ({ effect }) => effect?.outcome !== 'taken' && (effect?.batch ?? null) === null,
  )
  const refused: NumberedEffect[] = []
  const placed: Placed[] = []
  for (const stored of pending) {
    const place = placeOfReading(model, stored.entry.body, presentAt(model, stored))
    if (place.ok) placed.push({ ...place.value, stored })
    else
      refused.push({
        number: stored.number,
        effect: effectOf(
          'refused',
          place.issues.map(({ message }) => message),
        ),
      })
  }
  const sendings = [...groupBy(placed, ({ stored }) => stored.receivedAtEpochMs).values()]
  const taken = await eachByItself(tools, sendings, (sending) => takeSending(tools, field, sending))
  return [...refused, ...taken]
}

async function takeSending(
  { store, intake, touch }: FieldTools,
  { model }: FieldSite,
  sending: readonly Placed[],
): Promise<readonly NumberedEffect[]> {
  const first = sending[0]?.stored
  if (first === undefined) return []
  const site = model.facts.id
  const received = presentAt(model, first)
  const stamp = formatInstant(first.receivedAtEpochMs).replaceAll(/[-:]/g, '')
  const receipt = await intake.takeFile({
    site,
    fileName: `field-readings-${stamp}-${first.number}.csv`,
    bytes: inOnePiece(readingsFile(sending, received)),
    from: 'readings by hand along the works',
    receivedAtEpochMs: received,
    layoutId: fieldReadingsLayout.id,
  })
  if (receipt.accepted + receipt.conflicting > 0) touch()
  const aside = new Map(
    (await store.listQuarantined(site, receipt.batch)).map((one) => [one.line, one.message]),
  )
  const conflicts = new Map(
    (await store.listConflicts(site)).map((one) => [
      keyOf(one.logger, one.channel, one.atEpochMs, one.offeredRaw),
      one.keptRaw,
    ]),
  )
  return sending.map(({ stored, logger, channel }, i) => {
    const { sensor, atEpochMs, raw } = stored.entry.body
    const fault = receipt.outcome === 'refused' ? receipt.message : aside.get(i + 2)
    if (fault) return { number: stored.number, effect: effectOf('refused', [fault], receipt.batch) }
    const kept = conflicts.get(keyOf(logger, channel, atEpochMs, raw))
    return {
      number: stored.number,
      effect: effectOf(
        'taken',
        [
          `Taken as a reading of ${sensor}, on record of ${logger}, channel ${channel}.`,
          kept === undefined
            ? null
            : `${kept} is on record there for the same instant: both are kept and ${kept} is shown, until a person finds which is right.`,
        ],
        receipt.batch,
      ),
    }
  })
}

const keyOf = (logger: string, channel: string, atEpochMs: number, raw: number): string =>
  JSON.stringify([logger, channel, atEpochMs, raw])

/** As `fieldReadingsLayout` says, in order of arrival. */
function readingsFile(sending: readonly Placed[], receivedAtEpochMs: number): string {
  return formatDelimitedText([
    fieldReadingsHeadings,
    ...sending.map(({ stored: { entry }, logger, channel }) => [
      entry.id,
      oneLine(entry.author),
      entry.body.sensor,
      logger,
      channel,
      formatInstant(entry.body.atEpochMs),
      formatInstant(receivedAtEpochMs),
      String(entry.body.raw),
      oneLine(entry.body.confirmedBecause ?? ''),
    ]),
  ])
}

/** Line ends inside cells would shift the line numbers that receipts speak of. */
const oneLine = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  text.replaceAll(/[\u0000-\u001f\u2028\u2029\ud800-\udfff]+/gu, ' ').trim()

async function* inOnePiece(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text)
}
