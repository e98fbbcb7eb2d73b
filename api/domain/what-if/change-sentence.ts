import { numberText } from '../reduction/number-text.ts'
import { formatInstant } from '../site/instant-text.ts'
import type { SandboxChange, ZeroReading } from './sandbox-change.ts'

type InstantText = (epochMs: number) => string

/** A change in a sentence; `unit` is that of its series as people write it, empty where it is not known. */
export function changeSentence(
  change: SandboxChange,
  unit = '',
  instantText: InstantText = formatInstant,
): string {
  const when = `${change.series} from ${instant(change.fromEpochMs, instantText)}${
    change.untilEpochMs === null ? '' : ` until ${instant(change.untilEpochMs, instantText)}`
  }`
  const quantity = (value: number) => (unit === '' ? text(value) : `${text(value)} ${unit}`)
  switch (change.kind) {
    case 'coefficient':
      return `${when}: ${change.name} of step ${change.step} is ${text(change.value)}.`
    case 'zero':
      return `${when}: it reads ${quantity(change.reads)} at ${zeroText(change.zero, instantText)}.`
    case 'barometer':
      return change.barometer === null
        ? `${when}: no barometer; its air term is left out.`
        : `${when}: corrected by ${change.barometer}${change.offsetKpa === 0 ? '' : ` and ${text(change.offsetKpa)} kPa`}, of whose change it feels ${text(change.share)}${change.referenceKpa === null ? '' : `, ${text(change.referenceKpa)} kPa at the zero reading`}.`
    case 'thermal':
      return `${when}: thermal term of ${quantity(change.factorPerDegC)} per °C${change.referenceDegC === null ? '' : `, ${text(change.referenceDegC)} °C at the zero reading`}.`
    case 'wiring':
      return `${when}: ${change.exchanged ? 'exchanged with' : 'reads the channel of'} ${change.readsAs}.`
    case 'clock':
      return `${when}: stamps of its logger moved by ${text(change.offsetSeconds)} s${change.driftSecondsPerDay === 0 ? '' : ` and ${text(change.driftSecondsPerDay)} s a day`}.`
    case 'offset':
      return `${when}: ${quantity(change.amount)} added${change.perDay === 0 ? '' : `, and ${quantity(change.perDay)} a day`}.`
  }
}

function zeroText(zero: ZeroReading, instantText: InstantText): string {
  if (zero.by === 'raw') return `a raw reading of ${text(zero.raw)}`
  if (zero.by === 'reading') return `its reading of ${instant(zero.atEpochMs, instantText)}`
  return `the mean of its readings from ${instant(zero.fromEpochMs, instantText)} to ${instant(zero.untilEpochMs, instantText)}`
}

const text = (value: number): string => (Number.isFinite(value) ? numberText(value) : 'no number')
const instant = (epochMs: number, instantText: InstantText): string =>
  Number.isFinite(epochMs) ? instantText(epochMs) : 'no instant'
