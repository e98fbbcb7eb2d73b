import type { InstrumentKind } from '../site/vocabulary.ts'

/** Kinds that stand in a hole, whose collar, direction and length must be known. */
const inHole: ReadonlySet<InstrumentKind> = new Set([
  'piezometer',
  'standpipe',
  'extensometer',
  'in-place-inclinometer',
  'traversed-inclinometer',
])

/** Whether instruments of a kind stand in a hole. */
export const isInHole = (kind: InstrumentKind): boolean => inHole.has(kind)
