import type { InstrumentKind } from '#domain/site/vocabulary.ts'
import { levelOf, type Standing } from '../../ui/state-scale.ts'
import { symbols } from '../../ui/symbols.ts'
import { type Mark, path } from './mark.ts'

/**
 * A measuring point on its plate: filled by standing, hollow and hatched without current data, crossed out of use, a numeral from
 * Level 1 on. `levels`: how many the site names, which sets how deep each colour is; the numeral is never smaller than
 * `leastTextPixels`.
 */
export function standingMark(
  x: number,
  y: number,
  radius: number,
  standing: Standing,
  levels: number,
  kind: InstrumentKind | null,
  leastTextPixels = 0,
): Mark {
  const level = levelOf(standing)
  const numeralPixels = Math.max(12, radius * 1.05, leastTextPixels)
  const share = levels <= 1 ? 0 : Math.min(1, (level - 1) / (levels - 1))
  const fill =
    level > 0
      ? {
          fill: `color-mix(in srgb, var(--first-level) ${Math.round((1 - share) * 100)}%, var(--last-level))`,
        }
      : {}
  const hollow = standing !== 'within' && level === 0
  const children: Mark[] = [
    {
      tag: 'circle',
      attributes: { class: level > 0 ? 'plate reached' : 'plate', cx: 0, cy: 0, r: radius, ...fill },
    },
  ]
  if (standing === 'late') children.push(path('hatch', hatch(radius)))
  if (standing === 'out-of-use') children.push(path('hatch', cross(radius)))
  if (kind && radius >= 7) {
    const size = (radius * 1.35) / 24
    children.push({
      tag: 'g',
      attributes: {
        class: hollow ? 'glyph' : 'glyph on-fill',
        transform: `scale(${size.toFixed(3)}) translate(-12 -12)`,
      },
      children: [path('glyph-lines', symbols[kind].lines), path('glyph-solids', symbols[kind].solids)],
    })
  }
  if (level > 0)
    children.push({
      tag: 'g',
      attributes: { transform: `translate(${radius} ${-radius})` },
      children: [
        {
          tag: 'circle',
          attributes: { class: 'numeral-plate', cx: 0, cy: 0, r: Math.max(7, numeralPixels * 0.59) },
        },
        {
          tag: 'text',
          attributes: {
            class: 'numeral',
            x: 0,
            y: numeralPixels * 0.36,
            'text-anchor': 'middle',
            'font-size': numeralPixels,
          },
          text: String(level),
        },
      ],
    })
  return {
    tag: 'g',
    attributes: {
      class: `standing standing-${level > 0 ? 'level' : standing}`,
      transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})`,
    },
    children,
  }
}

/** Crossed out: nothing is measured there any more. */
function cross(radius: number): string {
  const arm = radius * Math.SQRT1_2
  const [from, whole] = [(-arm).toFixed(1), (2 * arm).toFixed(1)]
  return `M${from} ${from}l${whole} ${whole}m0 -${whole}l-${whole} ${whole}`
}

function hatch(radius: number): string {
  let d = ''
  for (const offset of [-0.9, -0.3, 0.3, 0.9]) {
    const half = radius * Math.sqrt(Math.max(0, 1 - (offset * offset) / 2)) * Math.SQRT1_2
    const middle = (offset * radius) / 2
    d += `M${(middle - half).toFixed(1)} ${(middle + half).toFixed(1)}L${(middle + half).toFixed(1)} ${(middle - half).toFixed(1)}`
  }
  return d
}
