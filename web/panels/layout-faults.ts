import type { Problem } from '#contract/problems.ts'
import type { LayoutFields } from './layout-fields.ts'

/** A field of the form in which something can be wrong. */
export type LayoutPlace = keyof LayoutFields | 'reason'

/** What is wrong with a layout, and in which field; `place` null: with the layout as a whole. */
export interface LayoutFault {
  readonly place: LayoutPlace | null
  /** The same place as it is spelt in a layout's own file; empty where none was named. */
  readonly path: string
  readonly message: string
}

/** What the server found wrong, each with the field of the form that says it. */
export function faultsOfIssues(issues: NonNullable<Problem['issues']>): readonly LayoutFault[] {
  return issues.map(({ column, message }) => {
    // The number at the end of a path is the place within a list, which stands in one field.
    const path = String(column ?? '').replace(/(\.\d+)+(\.(name|levelMetres))?$/, '')
    // The server's sentence begins with the place, which is shown beside it here.
    const place = `${column}: `
    return {
      place: placeOfPath[path] ?? null,
      path,
      message: message.startsWith(place) ? message.slice(place.length) : message,
    }
  })
}

/** What this page can see for itself: expressions that cannot be read, and zones that nobody knows. */
export function faultsOfFields(fields: LayoutFields): readonly LayoutFault[] {
  const faults: LayoutFault[] = []
  const mustBeExpression = (place: keyof LayoutFields) => {
    try {
      new RegExp(fields[place], 'u')
    } catch (cause) {
      faults.push({ ...at(place), message: `This is no regular expression. ${(cause as Error).message}.` })
    }
  }
  const mustBeZone = (place: keyof LayoutFields) => {
    if (!isZone(fields[place].trim()))
      faults.push({
        ...at(place),
        message:
          'This zone is not known. Write UTC, an offset such as -01:00, or a name such as Atlantic/Azores.',
      })
  }
  mustBeExpression('fileNamePattern')
  if (fields.shape === 'long' && fields.levelBook === 'yes') mustBeExpression('turningPoints')
  mustBeZone('timeZone')
  if (fields.receivedColumn.trim() !== '') mustBeZone('receivedZone')
  if (fields.shape === 'wide') {
    mustBeExpression('namePattern')
    if (!fields.namePattern.includes('(?<channel>'))
      faults.push({
        ...at('namePattern'),
        message:
          'Nothing says which part of a column name is the channel. Put it into a group (?<channel>…).',
      })
  }
  return faults
}

const placeOfPath: Readonly<Record<string, LayoutPlace>> = {
  reason: 'reason',
  'layout.id': 'id',
  'layout.title': 'title',
  'layout.encoding': 'encoding',
  'layout.delimiter': 'delimiter',
  'layout.decimalMark': 'decimalMark',
  'layout.headerRows': 'headerRows',
  'layout.namesRow': 'namesRow',
  'layout.time.columns': 'timeColumns',
  'layout.time.pattern': 'timePattern',
  'layout.time.zone': 'timeZone',
  'layout.received.column': 'receivedColumn',
  'layout.received.pattern': 'receivedPattern',
  'layout.received.zone': 'receivedZone',
  'layout.absent': 'absent',
  'layout.faultCodes': 'faultCodes',
  'layout.channels.shape': 'shape',
  'layout.channels.logger': 'logger',
  'layout.channels.loggerName': 'logger',
  'layout.channels.namePattern': 'namePattern',
  'layout.channels.ignored': 'ignored',
  'layout.channels.loggerColumn': 'loggerColumn',
  'layout.channels.channelColumn': 'channelColumn',
  'layout.channels.valueColumn': 'valueColumn',
  'layout.fileNamePattern': 'fileNamePattern',
  'layout.levelBook': 'levelBook',
  'layout.levelBook.lineColumn': 'lineColumn',
  'layout.levelBook.setupColumn': 'setupColumn',
  'layout.levelBook.behindColumn': 'behindColumn',
  'layout.levelBook.backsightColumn': 'backsightColumn',
  'layout.levelBook.distanceColumn': 'distanceColumn',
  'layout.levelBook.benchmarks': 'benchmarks',
  'layout.levelBook.closureMmPerRootKm': 'closure',
  'layout.levelBook.share': 'share',
  'layout.levelBook.turningPoints': 'turningPoints',
}

const at = (place: LayoutPlace) => ({
  place,
  path: Object.keys(placeOfPath).find((path) => placeOfPath[path] === place) ?? place,
})

function isZone(text: string): boolean {
  if (/^(UTC|[+-]\d\d:\d\d)$/.test(text)) return true
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: text })
    return text !== ''
  } catch {
    return false
  }
}
