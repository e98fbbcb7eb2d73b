import type { Stretch } from '../levels/value-levels.ts'
import { wiresOf } from '../network/wires-in-force.ts'
import type { DerivedBundle } from '../reduction/rules/derived-bundle.ts'
import type { SiteModel } from '../site/site.ts'

/**
 * When values of each series are expected, by its id, in order and apart from each other: while a channel reads its
 * sensor and neither point nor instrument is out of use. What is made of others is expected while all of its places
 * are; a mean while any is. Outside of them silence is planned.
 */
export function expectedStretches(
  model: Pick<SiteModel, 'wiring' | 'sensors' | 'sensorBarometers' | 'points' | 'instruments'>,
  bundles: readonly DerivedBundle[],
): ReadonlyMap<string, readonly Stretch[]> {
  const expected = new Map<string, readonly Stretch[]>()
  for (const { sensor, fromEpochMs, untilEpochMs } of wiresOf(model)) {
    const stretch = { fromEpochMs, untilEpochMs: Number.isFinite(untilEpochMs) ? untilEpochMs : null }
    if (untilEpochMs > fromEpochMs)
      expected.set(sensor.id, together([...(expected.get(sensor.id) ?? []), stretch]))
  }
  for (const { rule, slots, outputs } of bundles) {
    const places = slots.map(({ series }) => together(series.flatMap((id) => expected.get(id) ?? [])))
    const made = rule.kind === 'mean' ? together(places.flat()) : places.reduce(inBoth)
    for (const { id } of outputs) expected.set(id, made)
  }
  return expected
}

/** Stretches in order, those that touch or overlap made one. */
export function together(stretches: readonly Stretch[]): readonly Stretch[] {
  const joined: Stretch[] = []
  for (const stretch of stretches.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)) {
    const last = joined.at(-1)
    if (last && stretch.fromEpochMs <= endOf(last))
      joined[joined.length - 1] = { ...last, untilEpochMs: later(last.untilEpochMs, stretch.untilEpochMs) }
    else joined.push(stretch)
  }
  return joined
}

/** What lies in stretches of both. */
export const inBoth = (one: readonly Stretch[], other: readonly Stretch[]): readonly Stretch[] =>
  one.flatMap((first) =>
    other.flatMap((second) => {
      const fromEpochMs = Math.max(first.fromEpochMs, second.fromEpochMs)
      const end = Math.min(endOf(first), endOf(second))
      return fromEpochMs < end ? [{ fromEpochMs, untilEpochMs: Number.isFinite(end) ? end : null }] : []
    }),
  )

const endOf = ({ untilEpochMs }: Stretch): number => untilEpochMs ?? Number.POSITIVE_INFINITY

const later = (one: number | null, other: number | null): number | null =>
  one === null || other === null ? null : Math.max(one, other)
