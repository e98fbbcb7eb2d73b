import { type Drawn, type DrawnShape, type DrawnText, drawnMarks } from '../marks/drawn-marks.ts'
import type { Segment } from '../marks/path-segments.ts'
import type { NumberedFigure } from '../numbered.ts'
import { escapeMarkup } from './escape.ts'

/** Styles of all figures of a page, each written once and named: the page needs no style attributes. */
export interface FigureStyles {
  readonly classOf: (css: string) => string
  readonly css: () => string
}

export function createFigureStyles(): FigureStyles {
  const names = new Map<string, string>()
  return {
    classOf: (css) => {
      const name = names.get(css) ?? `d${names.size + 1}`
      names.set(css, name)
      return name
    },
    css: () => [...names].map(([css, name]) => `.${name}{${css}}`).join('\n'),
  }
}

/** A figure as inline SVG with its name and its description in words. */
export function writeSvg(
  figure: NumberedFigure,
  room: { readonly widthPixels: number; readonly fontPixels: number },
  styles: FigureStyles,
): string {
  const size = { ...room, heightPixels: Math.round(room.widthPixels / figure.aspect) }
  const drawn = drawnMarks(figure.scene(size), figure.scope, room.fontPixels)
  const clips = createClips(figure.anchor)
  const body = drawn.map((one) =>
    clips.within(one, one.kind === 'shape' ? shape(one, styles) : text(one, styles)),
  )
  const [title, description] = [`${figure.anchor}-title`, `${figure.anchor}-said`]
  return [
    `<svg class="drawing" role="img" aria-labelledby="${title} ${description}" viewBox="0 0 ${size.widthPixels} ${size.heightPixels}">`,
    `<title id="${title}">${escapeMarkup(figure.caption)}</title>`,
    `<desc id="${description}">${escapeMarkup(figure.alternative)}</desc>`,
    clips.definitions(),
    ...body,
    '</svg>',
  ].join('\n')
}

function shape(one: DrawnShape, styles: FigureStyles): string {
  const css = [
    `fill:${one.fill ?? 'none'}`,
    one.fill !== null && one.fillOpacity < 1 ? `fill-opacity:${one.fillOpacity}` : '',
    ...(one.stroke === null
      ? []
      : [
          `stroke:${one.stroke}`,
          `stroke-width:${short(one.strokePixels)}`,
          one.strokeOpacity < 1 ? `stroke-opacity:${one.strokeOpacity}` : '',
          one.dash.length > 0 ? `stroke-dasharray:${one.dash.map(short).join(' ')}` : '',
          one.round ? 'stroke-linecap:round;stroke-linejoin:round' : '',
        ]),
  ]
  return `<path class="${styles.classOf(css.filter(Boolean).join(';'))}" d="${pathOf(one.outline)}"/>`
}

function text(one: DrawnText, styles: FigureStyles): string {
  const [a, b, c, d, e, f] = one.matrix
  const turned = a !== 1 || b !== 0 || c !== 0 || d !== 1
  const css = [
    `fill:${one.fill}`,
    `font-size:${short(one.fontPixels)}px`,
    one.face === 'bold' ? 'font-weight:700' : one.face === 'oblique' ? 'font-style:italic' : '',
    one.anchor === 'start' ? '' : `text-anchor:${one.anchor}`,
    one.halo
      ? `paint-order:stroke;stroke:${one.halo.colour};stroke-width:${short(one.halo.pixels)};stroke-linejoin:round`
      : '',
  ]
  const place = turned
    ? `transform="matrix(${[a, b, c, d, e, f].map(short).join(' ')})"`
    : `x="${short(e)}" y="${short(f)}"`
  const ground = one.ground ? shape(one.ground, styles) : ''
  return `${ground}<text class="${styles.classOf(css.filter(Boolean).join(';'))}" ${place}>${escapeMarkup(one.text)}</text>`
}

function createClips(anchor: string) {
  const ids = new Map<string, string>()
  const idOf = (outline: readonly Segment[]) => {
    const d = pathOf(outline)
    const id = ids.get(d) ?? `${anchor}-clip-${ids.size + 1}`
    ids.set(d, id)
    return id
  }
  return {
    within: (one: Drawn, written: string) =>
      one.clips.reduceRight((inner, clip) => `<g clip-path="url(#${idOf(clip)})">${inner}</g>`, written),
    definitions: () => [...ids].map(([d, id]) => `<clipPath id="${id}"><path d="${d}"/></clipPath>`).join(''),
  }
}

const pathOf = (outline: readonly Segment[]): string =>
  outline.map(([kind, ...places]) => `${kind}${places.map(short).join(' ')}`).join('')

const short = (value: number): string => {
  const rounded = Math.round(value * 100) / 100
  return Object.is(rounded, -0) ? '0' : String(rounded)
}
