import type { InstrumentKind } from './vocabulary.ts'

/** Measures that are made from all sensors of an instrument, by its kind. */
export const derivedMeasures: Readonly<Partial<Record<InstrumentKind, string>>> = {
  'strut-load': 'force',
  'in-place-inclinometer': 'deflection',
}

/**
 * Ids of all series a site has: one a sensor (`point/measure`), and those made from several sensors,
 * `instrument/force` for struts, `instrument/deflection` and `point/deflection` for in-place inclinometers.
 */
export function seriesIds(site: {
  readonly sensors: readonly { readonly id: string }[]
  readonly instruments: readonly { readonly id: string; readonly kind: string }[]
  readonly points: readonly { readonly id: string; readonly instrument: string }[]
}): ReadonlySet<string> {
  const ids = new Set(site.sensors.map((sensor) => sensor.id))
  const inclinometers = new Set<string>()
  for (const { id, kind } of site.instruments) {
    const measure = derivedMeasures[kind as InstrumentKind]
    if (measure) ids.add(`${id}/${measure}`)
    if (measure === 'deflection') inclinometers.add(id)
  }
  for (const point of site.points) if (inclinometers.has(point.instrument)) ids.add(`${point.id}/deflection`)
  return ids
}
