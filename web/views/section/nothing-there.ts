import { formatValue } from '../../ui/format-value.ts'
import { crossesNothing, type SectionLayout } from './section-layout.ts'
import type { SectionProps } from './section-props.ts'

/** Why a section shows nothing at all, and what to do; null where something of the site lies on it. */
export function nothingThere(props: SectionProps, layout: SectionLayout): string | null {
  if (layout.lengthMetres === 0)
    return 'The line has no length: its corners are one place. Draw another line. Nothing is known along it.'
  if (!crossesNothing(props, layout)) return null
  const near = `no hole, point or works within ${formatValue(props.offsetLimitMetres, 0)} m of it`
  const apart = metresToSite(props)
  const degrees = looksLikeDegrees(props)
  const away =
    apart === null
      ? ''
      : ` The nearest hole or point stands ${apart > 10_000 ? `${formatValue(apart / 1000, 0)} km` : `${formatValue(apart, 0)} m`} away.`
  return `Nothing of the site lies on this line: ${near}.${away} ${
    degrees
      ? 'Its corners read like degrees; they are taken as metres of the site grid. Write easting and northing.'
      : 'Draw another line or widen the limit.'
  } No movement is shown because none was looked for here.`
}

/** Corners that could be longitude and latitude on a site whose own places could not. */
function looksLikeDegrees({ line, points, holes }: SectionProps): boolean {
  const small = (easting: number, northing: number) => Math.abs(easting) <= 180 && Math.abs(northing) <= 180
  const places = [...points, ...holes]
  return (
    line.every(([easting, northing]) => small(easting, northing)) &&
    places.length > 0 &&
    !places.some(({ eastingMetres, northingMetres }) => small(eastingMetres, northingMetres))
  )
}

/** From the line's corners and middle to the nearest hole or point; null without any. */
function metresToSite({ line, points, holes }: SectionProps): number | null {
  const distances = [...points, ...holes].map(({ eastingMetres, northingMetres }) =>
    Math.min(
      ...line.slice(1).map(([east, north], place) => {
        const [fromEast, fromNorth] = line[place] ?? [east, north]
        const [alongEast, alongNorth] = [east - fromEast, north - fromNorth]
        const square = alongEast ** 2 + alongNorth ** 2
        const share =
          square === 0
            ? 0
            : ((eastingMetres - fromEast) * alongEast + (northingMetres - fromNorth) * alongNorth) / square
        const held = Math.min(Math.max(share, 0), 1)
        return Math.hypot(
          eastingMetres - fromEast - held * alongEast,
          northingMetres - fromNorth - held * alongNorth,
        )
      }),
    ),
  )
  return distances.length === 0 ? null : Math.min(...distances)
}
