import type { FieldEntry } from '#domain/field/field-entry.ts'

/** What an entry is, in a line. */
export function entrySentence({ body, attachments }: Pick<FieldEntry, 'body' | 'attachments'>): string {
  const files =
    attachments.length === 0 ? '' : ` · ${attachments.length} ${attachments.length === 1 ? 'file' : 'files'}`
  return `${sentenceOfBody(body)}${files}`
}

function sentenceOfBody(body: FieldEntry['body']): string {
  switch (body.kind) {
    case 'reading':
      return `Reading of ${body.sensor}: ${body.raw}`
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
