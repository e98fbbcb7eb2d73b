import type { Issue } from '../../outcome.ts'
import { type Instrument, type MeasuringPoint, siteTables } from '../../site/tables.ts'
import type { DerivedSlot } from '../rules/derived-bundle.ts'

/** How far apart the ends of neighbouring segments may be written and still be one joint. */
const jointMetres = 0.01

/**
 * Segments of a string must join end to end: over a gap nothing is measured, where they overlap movement is counted
 * twice. A gap that is real parts two strings: each is an instrument of its own with its own still end. A string of
 * which no segment states its length is not judged; once one does, all must.
 */
export function joinFaults(
  { id }: Instrument,
  points: readonly MeasuringPoint[],
  slots: readonly DerivedSlot[],
): readonly Issue[] {
  const lengths = new Map(points.map((point) => [point.id, point.gaugeLengthMetres]))
  const stated = slots.some(({ point }) => (lengths.get(point) ?? null) !== null)
  const missing = stated ? slots.filter(({ point }) => (lengths.get(point) ?? null) === null) : []
  const withoutLength = missing.map(
    ({ point }): Issue => ({
      code: 'segment-without-length',
      file: siteTables.points.file,
      column: 'gaugeLengthMetres',
      value: '',
      expected: 'metres, as at its neighbours',
      message: `${point} of ${id} states no length, but other segments do: whether it joins its neighbours cannot be told. Give its gaugeLengthMetres.`,
    }),
  )
  const apart = slots.slice(1).flatMap((lower, index): readonly Issue[] => {
    const upper = slots[index] as DerivedSlot
    const [above, below] = [lengths.get(upper.point) ?? null, lengths.get(lower.point) ?? null]
    if (above === null || below === null) return []
    const ends = upper.depthMetres + above / 2
    const begins = lower.depthMetres - below / 2
    const gapMetres = begins - ends
    if (Math.abs(gapMetres) <= jointMetres) return []
    const how = gapMetres > 0 ? 'leave a gap of' : 'overlap by'
    const then =
      gapMetres > 0
        ? ', or write two strings that are parted there as two instruments, each with its own still end'
        : ''
    return [
      {
        code: gapMetres > 0 ? 'segments-apart' : 'segments-overlap',
        file: siteTables.points.file,
        column: 'depthMetres',
        value: String(lower.depthMetres),
        expected: `a segment that begins at ${round(ends)} m`,
        message: `${lower.point} of ${id} begins at ${round(begins)} m, but ${upper.point} above it ends at ${round(ends)} m: they ${how} ${round(Math.abs(gapMetres))} m, and a string is added up joint by joint. Correct a depth or a gauge length${then}.`,
      },
    ]
  })
  return [...withoutLength, ...apart]
}

const round = (metres: number): number => Number(metres.toFixed(3))
