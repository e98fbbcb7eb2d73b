import {
  type AlignmentElement,
  bearingAlong,
  pointOnElement,
  stationOnAlignment,
} from './curved-alignment.ts'
import type { SitePoint } from './site-grid.ts'

/** What setting-out tables written to the millimetre and the second of arc keep well within. */
const jointMetres = 0.01
const jointDegrees = 0.01
/** How far the drawn line may lie off its elements: it is drawn for a map, but is the same alignment. */
const drawnMetres = 1

interface Fault<C extends string> {
  readonly code: string
  readonly column: C
  readonly expected: string
  readonly message: string
}

/** A fault of an element, by its place among them, from 0. */
export type ElementFault = Fault<keyof AlignmentElement | 'element'> & { readonly element: number }

/**
 * Whether elements make one alignment: numbered 1, 2, 3 …, each a straight or an arc of less than a full turn, and each
 * beginning where the one before ends (10 mm), in its direction (0.01°), at its chainage (10 mm).
 */
export function elementFaults(
  alignment: string,
  elements: readonly (AlignmentElement & { readonly element: number })[],
): readonly ElementFault[] {
  return elements.flatMap((one, element): ElementFault[] => {
    const before = elements[element - 1]
    const named = `Element ${one.element} of ${alignment}`
    const fault = (column: ElementFault['column'], code: string, expected: string, message: string) => ({
      element,
      column,
      code,
      expected,
      message: `${named} ${message}`,
    })
    const own = shapeFault(one, fault)
    if (own) return [own]
    if (one.element !== element + 1)
      return [
        fault(
          'element',
          'element-number',
          String(element + 1),
          `comes where ${element + 1} is expected. Number elements 1, 2, 3 … in the direction of travel, or add the missing one.`,
        ),
      ]
    return before && shapeFault(before, fault) === null ? jointFaults(before, one, fault) : []
  })
}

type Tell = (column: ElementFault['column'], code: string, expected: string, message: string) => ElementFault

function shapeFault(
  { radiusMetres, hand, lengthMetres }: AlignmentElement,
  fault: Tell,
): ElementFault | null {
  if ((radiusMetres === null) !== (hand === null))
    return radiusMetres === null
      ? fault(
          'radiusMetres',
          'arc-incomplete',
          'a radius',
          'turns to a hand but has no radius. Give radiusMetres, or leave hand empty for a straight.',
        )
      : fault(
          'hand',
          'arc-incomplete',
          'left or right',
          `has a radius of ${radiusMetres} m but does not say to which hand it turns. Write left or right, or leave the radius empty for a straight.`,
        )
  if (radiusMetres !== null && !(radiusMetres > 0))
    return fault(
      'radiusMetres',
      'radius-not-positive',
      'more than 0',
      `has a radius of ${radiusMetres} m. Give a positive radius and its hand, or leave both empty for a straight.`,
    )
  if (radiusMetres !== null && lengthMetres >= 2 * Math.PI * radiusMetres)
    return fault(
      'lengthMetres',
      'arc-full-turn',
      `less than ${(2 * Math.PI * radiusMetres).toFixed(3)} m, once around`,
      `would turn full circle: ${lengthMetres} m on a radius of ${radiusMetres} m. Correct one of the two.`,
    )
  return null
}

function jointFaults(before: AlignmentElement, one: AlignmentElement, fault: Tell): ElementFault[] {
  const found: ElementFault[] = []
  const [easting, northing] = pointOnElement(before, before.lengthMetres)
  const apart = Math.hypot(one.startEastingMetres - easting, one.startNorthingMetres - northing)
  if (apart > jointMetres)
    found.push(
      fault(
        'startEastingMetres',
        'elements-apart',
        `${easting.toFixed(3)}, ${northing.toFixed(3)} within ${jointMetres} m`,
        `begins ${apart.toFixed(3)} m from where the one before ends, ${easting.toFixed(3)} E ${northing.toFixed(3)} N. Look for easting and northing exchanged, a wrong hand, radius or length.`,
      ),
    )
  const bearing = bearingAlong(before, before.lengthMetres)
  const turn = Math.abs(((one.startBearingDegrees - bearing + 540) % 360) - 180)
  if (turn > jointDegrees)
    found.push(
      fault(
        'startBearingDegrees',
        'elements-not-tangent',
        `${bearing.toFixed(4)} within ${jointDegrees}°`,
        `begins at a bearing of ${one.startBearingDegrees}°, but the one before ends at ${bearing.toFixed(4)}°: they would meet in a corner. Correct the bearing, hand, radius or length.`,
      ),
    )
  const chainage = before.startChainageMetres + before.lengthMetres
  if (Math.abs(one.startChainageMetres - chainage) > jointMetres)
    found.push(
      fault(
        'startChainageMetres',
        'chainage-jumps',
        `${chainage.toFixed(3)} within ${jointMetres} m`,
        `begins at chainage ${one.startChainageMetres}, but the one before ends at ${chainage.toFixed(3)}. Chainages must run on: with a jump (a chainage equation) one chainage would name two places or none.`,
      ),
    )
  return found
}

/** Whether a drawn line is the alignment of its elements: every corner within 1 m of it, and in its direction. */
export function lineFaults(
  alignment: string,
  elements: readonly AlignmentElement[],
  drawn: readonly SitePoint[],
): readonly { readonly code: string; readonly expected: string; readonly message: string }[] {
  const stations = drawn.flatMap((corner) => stationOnAlignment(elements, corner, { extended: true }) ?? [])
  const farthest = Math.max(...stations.map(({ offsetMetres }) => Math.abs(offsetMetres)))
  if (farthest > drawnMetres)
    return [
      {
        code: 'alignment-off-drawing',
        expected: `at most ${drawnMetres} m`,
        message: `The line drawn for ${alignment} in works.geojson lies up to ${farthest.toFixed(1)} m off its elements. Look for easting and northing exchanged, another grid, or a line that was drawn anew.`,
      },
    ]
  const [first, last] = [stations[0], stations.at(-1)]
  if (first && last && last.chainageMetres < first.chainageMetres)
    return [
      {
        code: 'alignment-against-drawing',
        expected: 'the direction of the drawn line',
        message: `The line drawn for ${alignment} in works.geojson runs against its elements, so left and right would change sides. Turn one of them around.`,
      },
    ]
  return []
}
