import type { SandboxChange, SandboxKind, ZeroReading } from './sandbox-change.ts'
import { sandboxKinds } from './sandbox-change.ts'

/** Most changes that one address carries. */
export const mostChanges = 20

/** Changes as a text for an address: changes apart by `;`, fields by `,`. */
export const writeSandbox = (changes: readonly SandboxChange[]): string =>
  changes
    .map((change) =>
      fieldsOf(change)
        .map((field) => escaped(field))
        .join(','),
    )
    .join(';')

/** Reads what `writeSandbox` wrote; a change that cannot be read is left out. A number that is missing is NaN, and told. */
export const readSandbox = (text: string): readonly SandboxChange[] =>
  text
    .split(';')
    .slice(0, mostChanges)
    .flatMap((part) => readChange(part.split(',').map(unescaped)) ?? [])

function fieldsOf(change: SandboxChange): readonly string[] {
  const dated = [change.kind, change.series, instant(change.fromEpochMs), instant(change.untilEpochMs)]
  switch (change.kind) {
    case 'coefficient':
      return [...dated, String(change.step), change.name, number(change.value)]
    case 'zero':
      return [...dated, ...zeroFields(change.zero), number(change.reads)]
    case 'barometer':
      return [
        ...dated,
        change.barometer ?? '',
        number(change.share),
        number(change.referenceKpa),
        number(change.offsetKpa),
      ]
    case 'thermal':
      return [...dated, number(change.factorPerDegC), number(change.referenceDegC)]
    case 'wiring':
      return [...dated, change.readsAs, change.exchanged ? 'exchanged' : 'moved']
    case 'clock':
      return [...dated, number(change.offsetSeconds), number(change.driftSecondsPerDay)]
    case 'offset':
      return [...dated, number(change.amount), number(change.perDay)]
  }
}

function zeroFields(zero: ZeroReading): readonly string[] {
  if (zero.by === 'raw') return ['raw', number(zero.raw), '']
  if (zero.by === 'reading') return ['reading', instant(zero.atEpochMs), '']
  return ['mean', instant(zero.fromEpochMs), instant(zero.untilEpochMs)]
}

function readChange(fields: readonly string[]): SandboxChange | null {
  const [kindText = '', series = '', from = '', until = '', ...rest] = fields
  const kind = sandboxKinds.find((one): one is SandboxKind => one === kindText)
  if (!kind) return null
  const untilEpochMs = until === '' ? null : Date.parse(until)
  if (untilEpochMs !== null && Number.isNaN(untilEpochMs)) return null
  const dated = { series, fromEpochMs: Date.parse(from), untilEpochMs }
  const [a = '', b = '', c = '', d = ''] = rest
  switch (kind) {
    case 'coefficient':
      return { ...dated, kind, step: Number(a), name: b, value: numeric(c) }
    case 'zero':
      return { ...dated, kind, zero: readZero(a, b, c), reads: numeric(d) }
    case 'barometer':
      return {
        ...dated,
        kind,
        barometer: a === '' ? null : a,
        share: numeric(b),
        referenceKpa: c === '' ? null : numeric(c),
        offsetKpa: numeric(d),
      }
    case 'thermal':
      return { ...dated, kind, factorPerDegC: numeric(a), referenceDegC: b === '' ? null : numeric(b) }
    case 'wiring':
      return { ...dated, kind, readsAs: a, exchanged: b === 'exchanged' }
    case 'clock':
      return { ...dated, kind, offsetSeconds: numeric(a), driftSecondsPerDay: numeric(b) }
    case 'offset':
      return { ...dated, kind, amount: numeric(a), perDay: numeric(b) }
  }
}

function readZero(by: string, one: string, other: string): ZeroReading {
  if (by === 'raw') return { by, raw: numeric(one) }
  if (by === 'mean') return { by, fromEpochMs: Date.parse(one), untilEpochMs: Date.parse(other) }
  return { by: 'reading', atEpochMs: Date.parse(one) }
}

const number = (value: number | null): string =>
  value === null ? '' : Number.isFinite(value) ? String(value) : 'none'
const numeric = (text: string): number => (text.trim() === '' ? Number.NaN : Number(text))
const instant = (epochMs: number | null): string =>
  epochMs === null || Number.isNaN(epochMs) ? '' : new Date(epochMs).toISOString()

const escaped = (field: string): string => field.replace(/[%,;]/g, (sign) => encodeURIComponent(sign))

function unescaped(field: string): string {
  return field.replace(/%(25|2C|3B)/gi, (sign) => decodeURIComponent(sign))
}
