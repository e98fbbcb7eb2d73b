import { booleanPointInPolygon } from '@turf/turf'
import type { PlacedInstrument, SiteDocument } from '#contract/site-document.ts'
import { effectiveStressKpa } from '#domain/ground/effective-stress.ts'
import { stressFromStrata } from '#domain/ground/stress-from-strata.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import type { DepthProfileProps, ProfileStresses } from './profile-props.ts'

/**
 * Total vertical stress by depth from the layers of a string's hole, and effective stress at each tip and date. Not told
 * where the layers do not reach a tip without a gap, nor of a date at which ground above the string had been dug.
 */
export function withStresses(
  { document, instrument }: { readonly document: SiteDocument; readonly instrument: PlacedInstrument },
  props: DepthProfileProps,
): DepthProfileProps {
  if (props.unit !== 'kPa') return props
  const layers = document.strata.filter(({ location }) => location === instrument.location)
  const totalAt = (levelMetres: number) => stressFromStrata(layers, props.collarLevelMetres, levelMetres)
  const total = new Map(
    props.points.flatMap(({ point, levelMetres }) => {
      const stress = totalAt(levelMetres)
      return stress === null ? [] : [[point, stress] as const]
    }),
  )
  if (total.size === 0)
    return {
      ...props,
      remarks: [
        ...props.remarks,
        `Effective stress is not told: the layers recorded of ${instrument.location} do not reach from its collar to a tip without a gap.`,
      ],
    }
  const begun = firstDigOver(document, instrument)
  const effective = props.curves.map((curve) =>
    begun !== null && curve.atEpochMs >= begun
      ? new Map<string, number>()
      : new Map(
          curve.readings.flatMap(({ point, value }) => {
            const stress = total.get(point)
            return stress === undefined || value === null
              ? []
              : [[point, effectiveStressKpa(stress, value)] as const]
          }),
        ),
  )
  const deepest = Math.min(
    ...props.points.filter(({ point }) => total.has(point)).map(({ levelMetres }) => levelMetres),
  )
  const bends = [props.collarLevelMetres, ...layers.map((layer) => layer.baseLevelMetres), deepest]
  const places = [...new Set(bends)]
    .filter((level) => level >= deepest && level <= props.collarLevelMetres)
    .toSorted((one, other) => other - one)
    .map((levelMetres) => ({ levelMetres, kpa: totalAt(levelMetres) ?? 0 }))
  const missing = props.points.length - total.size
  const remarks = [
    'Effective stress is total stress less pore pressure; total from the layers of the hole and their unit weights, ground at its collar. Loads and fill put on since are not in it.',
    ...(missing > 0
      ? [`${missing} of ${props.points.length} tips lie below the layers recorded: no stress is told there.`]
      : []),
    ...(begun !== null && props.curves.some(({ atEpochMs }) => atEpochMs >= begun)
      ? [
          `${Number.isFinite(begun) ? `From ${formatShortInstant(begun, props.timeZone)} ground` : 'Ground'} above ${instrument.id} was dug: total and effective stress are not told from then on.`,
        ]
      : []),
  ]
  const stresses: ProfileStresses | null = effective.some(({ size }) => size > 0)
    ? { places, total, effective }
    : null
  return { ...props, stresses, remarks: [...props.remarks, ...remarks] }
}

/** When digging began over the head of an instrument's hole; null where none is recorded. */
function firstDigOver(document: SiteDocument, instrument: PlacedInstrument): number | null {
  const location = document.locations.find(({ id }) => id === instrument.location)
  if (!location) return null
  const starts = document.works.features.flatMap(({ geometry, properties }) =>
    properties.kind === 'excavation' &&
    (geometry.type === 'Polygon' || geometry.type === 'MultiPolygon') &&
    booleanPointInPolygon([location.longitude, location.latitude], geometry)
      ? [properties.fromEpochMs ?? Number.NEGATIVE_INFINITY]
      : [],
  )
  return starts.length === 0 ? null : Math.min(...starts)
}
