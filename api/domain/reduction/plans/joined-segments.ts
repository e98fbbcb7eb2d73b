import type { Issue } from '../../outcome.ts'
import { type Instrument, type MeasuringPoint, siteTables } from '../../site/tables.ts'
import type { DerivedSlot } from '../rules/derived-bundle.ts'

/** How far apart the ends of neighbouring segments may be written and still be one joint. */
const jointMetres = 0.01

/**
 * Segments of a string must join end to end: over a gap nothing is measured, where they overlap movement is counted
 * twice. A segment without a gauge length is not judged.
 */
export function joinFaults(
  { id }: Instrument,
  points: readonly MeasuringPoint[],
  slots: readonly DerivedSlot[],
): readonly Issue[] {
  const lengths = new Map(points.map((point) => [point.id, point.gaugeLengthMetres]))
  return slots.slice(1).flatMap((lower, index): readonly Issue[] => {
    const upper = slots[index] as DerivedSlot
    const [above, below] = [lengths.get(upper.point) ?? null, lengths.get(lower.point) ?? null]
    if (above === null || below === null) return []
    const ends = upper.depthMetres + above / 2
    const begins = lower.depthMetres - below / 2
    const apart = begins - ends
    if (Math.abs(apart) <= jointMetres) return []
    const how = apart > 0 ? 'leave a gap of' : 'overlap by'
    return [
      {
        code: apart > 0 ? 'segments-apart' : 'segments-overlap',
        file: siteTables.points.file,
        column: 'depthMetres',
        value: String(lower.depthMetres),
        expected: `a segment that begins at ${round(ends)} m`,
        message: `${lower.point} of ${id} begins at ${round(begins)} m, but ${upper.point} above it ends at ${round(ends)} m: they ${how} ${round(Math.abs(apart))} m, and a string is added up joint by joint. Correct a depth or a gauge length.`,
      },
    ]
  })
}

const round = (metres: number): number => Number(metres.toFixed(3))
