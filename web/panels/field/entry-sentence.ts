import type { FieldGuide, GuidedSensor } from '#contract/field-guide.ts'
import type { FieldEntry } from '#domain/field/field-entry.ts'
import { withUnit } from '../../ui/format-value.ts'

/** What an entry is, in a line; a reading with its raw unit where the guide of its site knows it. */
export function entrySentence(
  { site, body, attachments }: Pick<FieldEntry, 'site' | 'body' | 'attachments'>,
  guide: Pick<FieldGuide, 'site' | 'sensors'> | null,
): string {
  const files =
    attachments.length === 0 ? '' : ` · ${attachments.length} ${attachments.length === 1 ? 'file' : 'files'}`
  return `${sentenceOfBody(body, guide?.site === site ? guide.sensors : [])}${files}`
}

function sentenceOfBody(
  body: FieldEntry['body'],
  sensors: readonly Pick<GuidedSensor, 'id' | 'rawUnit'>[],
): string {
  switch (body.kind) {
    case 'reading': {
      const unit = sensors.find(({ id }) => id === body.sensor)?.rawUnit
      return `Reading of ${body.sensor}: ${unit === undefined ? body.raw : withUnit(String(body.raw), unit)}`
    }
    case 'note':
    case 'damage': {
      const what = body.kind === 'note' ? 'Note' : 'Damage'
      return `${what}${body.about === null ? '' : ` on ${body.about}`}: ${body.text}`
    }
    case 'coverage-test':
      return `Coverage test ${body.test}`
    case 'receiver-record':
      return `Receiver’s record of coverage test ${body.test}`
    case 'installation':
      return `Installation of ${body.instrument}`
    case 'second-check':
      return `Second check of ${body.instrument}: ${body.agreed ? 'agreed' : 'not agreed'}`
    case 'commissioning-step':
      return `Commissioning of ${body.logger}, ${body.step}: ${body.outcome.replace('-', ' ')}`
    case 'commissioning-signature':
      return `Commissioning of ${body.logger}: signed`
    case 'memory-file':
      return `Memory of ${body.logger}: ${body.fileName}`
    case 'resolution':
      return `Decision between entries on ${body.subject}: ${body.reason}`
  }
}
