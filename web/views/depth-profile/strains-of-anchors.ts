import type { PlacedInstrument } from '#contract/site-document.ts'
import type { DepthProfileProps, ProfileReading, ProfileStrain } from './profile-props.ts'

/** Strain of the ground between anchors, as it was published with the readings, at the middle of each interval. */
export function withStrains(
  instrument: PlacedInstrument,
  strains: readonly (readonly ProfileReading[])[],
  props: DepthProfileProps,
): DepthProfileProps {
  if (instrument.kind !== 'extensometer') return props
  if ((strains[0]?.length ?? 0) === 0)
    return {
      ...props,
      remarks: [
        ...props.remarks,
        'Strain between anchors is not told: it is not recorded whether a positive reading means that head and anchor move apart or together.',
      ],
    }
  const downwards = props.points.toSorted((one, other) => one.depthMetres - other.depthMetres)
  const intervals = downwards.map((lower, place): ProfileStrain => {
    const upper = downwards[place - 1]
    return {
      point: lower.point,
      above: upper?.point ?? 'head',
      topLevelMetres: upper?.levelMetres ?? props.collarLevelMetres,
      baseLevelMetres: lower.levelMetres,
      readings: strains.map((readings) => readings.find(({ point }) => point === lower.point) ?? null),
    }
  })
  return {
    ...props,
    strains: intervals,
    remarks: [
      ...props.remarks,
      'ε: strain of the ground between neighbouring anchors, or head and anchor, lengthening positive.',
    ],
  }
}
