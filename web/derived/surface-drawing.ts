import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import type { GroundSurface } from '#domain/ground/ground-surface.ts'
import type { SurfaceDrawing } from '../views/plan-map/layers/surface-layers.ts'
import { arrowOutlines } from './arrow-drawing.ts'
import { gradientNote } from './gradient-note.ts'
import { nothingTold, slopeText } from './slope-text.ts'
import { straightLinesNote } from './straight-lines-note.ts'
import { surfaceKey } from './surface-key.ts'

/** What a surface is of, as the plan tells it. */
export interface SurfaceSubject {
  /** `Settlement at …`. */
  readonly what: string
  /** `positive is settlement`, or where a level counts from. */
  readonly sense: string
  /** Movement has a nought; a level has none. */
  readonly colouring: SurfaceDrawing['colouring']
}

/** A surface as the plan draws it, with the note that must stand beside it: method, unit, points, how well it is known. */
export function surfaceDrawing(
  surface: GroundMap,
  subject: SurfaceSubject,
  toLngLat: (point: SitePoint) => LngLat,
): SurfaceDrawing {
  const place = (point: SitePoint): [number, number] => {
    const [longitude, latitude] = toLngLat(point)
    return [longitude, latitude]
  }
  const { slopes, gradient } = surface
  const { bands, lines } = slopes ?? surface
  const extremes = bands.flatMap(({ lowMm, highMm }) => [lowMm, highMm])
  return {
    colouring: slopes === null ? subject.colouring : 'slope',
    bands: bands.flatMap((band) =>
      band.polygons.map((rings) => ({
        middle: (band.lowMm + band.highMm) / 2,
        rings: rings.map((ring) => ring.map(place)),
      })),
    ),
    lines: lines.map(({ level, points, certain }) => ({
      value: level,
      path: points.map(place),
      certain,
    })),
    outline: (slopes === null ? surface.mask : [...surface.mask, ...slopes.outline]).map((ring) =>
      ring.map(place),
    ),
    hatches: (slopes?.hatches ?? []).map((stroke) => stroke.map(place)),
    arrows: (gradient === null ? [] : arrowOutlines(gradient)).map(({ standing, shaft, head }) => ({
      standing,
      shaft: shaft.map(place),
      head: head.map(place),
    })),
    marks: [],
    key: surfaceKey(surface),
    lowest: extremes.length === 0 ? 0 : Math.min(...extremes),
    highest: extremes.length === 0 ? 0 : Math.max(...extremes),
    note: [...slopeNote(surface), surfaceNote(surface, subject), ...gradientNote(surface)].join(' '),
  }
}

/** What is said first where slopes are drawn instead of values. */
function slopeNote({ slopes, drawnBy }: GroundMap): readonly string[] {
  if (slopes === null) return []
  const { steepest, notes } = slopes
  return [
    steepest === null
      ? `${slopes.aspect === 'slope' ? 'Slope' : 'Angular distortion'}: ${nothingTold}; all of it is hatched.`
      : `${slopes.aspect === 'slope' ? 'Steepest' : 'Greatest'} ${slopeText(steepest.mmPerMetre)}, standard error ${steepest.standardError === null ? 'not known' : `${twoDigits(steepest.standardError)} mm/m`}.`,
    ...notes,
    ...straightLinesNote(drawnBy),
    'The surface it is taken from:',
  ]
}

/** Method, unit, numbers of points used and left out and why, and how well the surface is known. */
export function surfaceNote(
  surface: Pick<
    GroundSurface,
    | 'method'
    | 'unit'
    | 'pointsUsed'
    | 'pointsLeftOut'
    | 'pointsMerged'
    | 'deviation'
    | 'step'
    | 'notes'
    | 'check'
  >,
  { what, sense }: Pick<SurfaceSubject, 'what' | 'sense'>,
): string {
  const { unit, deviation, step, check } = surface
  const reasons = new Map<string, string[]>()
  for (const { id, reason } of surface.pointsLeftOut)
    reasons.set(reason, [...(reasons.get(reason) ?? []), id])
  const left = [...reasons].map(([reason, ids]) => `${ids.join(', ')}: ${reason}`)
  const merged =
    surface.pointsMerged.length === 0 ? '' : ` ${surface.pointsMerged.length} groups of points merged.`
  const known =
    deviation === null
      ? ''
      : ` Standard deviation of the surface where it is shown: ${twoDigits(deviation.least)} to ${twoDigits(deviation.most)} ${unit}; a line is dashed where it may as well run half a step away.`
  // Why it is not drawn as asked comes first.
  const [refused, others] = [surface.notes.slice(0, 2), surface.notes.slice(2)]
  const instead = surface.notes[0]?.startsWith('No kriging') ?? false
  return [
    ...(instead ? refused : []),
    `${what}, ${unit}, ${sense}. ${surface.method} ${surface.pointsUsed.length} points used, ${surface.pointsLeftOut.length} left out${left.length > 0 ? ` (${left.join('; ')})` : ''}.${merged} Not drawn beyond the outermost points.${known}`,
    ...(step === null ? [] : [step.reason]),
    ...(instead ? others : surface.notes),
    ...(check === null ? [] : [check.sentence]),
  ].join(' ')
}

const twoDigits = (value: number) => String(Number(value.toPrecision(2)))
