import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { type Hole, positionAtDepth } from '#domain/geometry/hole.ts'
import { projectOntoSection } from '#domain/geometry/section-line.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { cumulativeDeflection } from '../../derived/cumulative-deflection.ts'
import { alongShares } from './along-shares.ts'
import type { SectionShape } from './section-props.ts'
import { segmentsOf } from './segment-increments.ts'
import { traversedPlaces } from './traversed-places.ts'

/** Kinds whose bend is drawn in the plane of the section. */
const bentKinds = new Set(['in-place-inclinometer', 'traversed-inclinometer'])

/** Casings' A-axis deflections turned into the plane of the section's nearest piece. */
export function shapesOf(
  document: SiteDocument,
  states: ReadonlyMap<number, SeriesState>,
  line: readonly SitePoint[],
): {
  readonly shapes: readonly SectionShape[]
  readonly refused: (withinMetres: number) => readonly string[]
} {
  const points = new Map(document.points.map((point) => [point.id, point]))
  const refusals: { readonly sentence: string; readonly hole: Hole }[] = []
  const seriesOf = new Map(document.series.map((series) => [series.id, series]))
  const shapes = document.instruments.flatMap((instrument) => {
    const bearing = instrument.axisBearingDegrees
    const hole = document.locations.find((location) => location.id === instrument.location)
    if (!bentKinds.has(instrument.kind) || !hole) return []
    const refuse = (why: string) => {
      refusals.push({ sentence: `${instrument.id} is drawn without its bend: ${why}.`, hole })
      return []
    }
    if (bearing === null) return refuse('the bearing of its axis A is not recorded')
    // From a surveyed head the shape does not begin at nought; it is drawn in the profile only.
    if (instrument.fixedEnd === 'surveyed-head')
      return refuse('its movements are told from a surveyed head; see its depth profile')
    const along = alongShares(line, [hole.eastingMetres, hole.northingMetres], bearing)
    if (!along) return []
    const acrossShare = instrument.positiveB === 'counter-clockwise' ? -along.b : along.b
    const fixedEnd = instrument.fixedEnd === 'head' ? 'head' : 'toe'
    const members = instrument.points.flatMap((id) => points.get(id) ?? [])
    // Published deflections run along grooves that turn; unturned again they would need every interval of both axes.
    const turns = members.some(({ grooveTurnDegrees }) => (grooveTurnDegrees ?? 0) !== 0)
    if (turns && instrument.kind === 'traversed-inclinometer')
      return refuse('its grooves turn with depth; see its depth profile')
    const sense = instrument.positiveB === 'counter-clockwise' ? -1 : 1
    const axis = (name: 'a' | 'b') =>
      instrument.kind === 'traversed-inclinometer'
        ? traversedPlaces(instrument, members, seriesOf, states, name)
        : cumulativeDeflection(segmentsOf(members, seriesOf, states, name, sense), fixedEnd).places
    const [a, b] = [axis('a'), axis('b')]
    const places = a.flatMap((place) => {
      const across = b.find((one) => Math.abs(one.depthMetres - place.depthMetres) < 0.01)
      // Without the B axis the movement in the section's plane is only known where A lies in it.
      if (!across && Math.abs(along.b) > 0.05) return []
      return [
        {
          depthMetres: place.depthMetres,
          alongMillimetres: place.millimetres * along.a + (across?.millimetres ?? 0) * acrossShare,
        },
      ]
    })
    const late = members.some((point) => {
      const series = seriesOf.get(`${point.id}/inclination-a`) ?? seriesOf.get(`${point.id}/deflection`)
      return series ? (states.get(series.series)?.late ?? true) : false
    })
    if (places.length >= 2) return [{ instrument: instrument.id, hole, late, places }]
    if (states.size === 0) return []
    return refuse(
      a.length >= 2
        ? 'without its axis B the movement in the plane of the section is not known'
        : 'no movement is known at two depths or more',
    )
  })
  const near = ({ hole }: { readonly hole: Hole }, withinMetres: number) =>
    projectOntoSection(line, [positionAtDepth(hole, 0)], withinMetres)[0] !== null
  return {
    shapes,
    refused: (withinMetres) =>
      refusals.filter((one) => near(one, withinMetres)).map(({ sentence }) => sentence),
  }
}
