/** One drawn thing as plain data: an SVG element, its attributes, and what it says when pointed at. */
export interface Mark {
  readonly tag: 'g' | 'path' | 'line' | 'rect' | 'circle' | 'text' | 'clipPath' | 'pattern' | 'defs'
  readonly attributes: Readonly<Record<string, string | number>>
  /** Text of a text mark. */
  readonly text?: string
  /** Said by the browser when pointed at, and by a screen reader. */
  readonly title?: string
  readonly children?: readonly Mark[]
  /** Marks with the same key are the same element from one drawing to the next, so that focus stays. */
  readonly key?: string
}

export const group = (
  className: string,
  children: readonly Mark[],
  attributes: Mark['attributes'] = {},
): Mark => ({ tag: 'g', attributes: { class: className, ...attributes }, children })

export const line = (className: string, x1: number, y1: number, x2: number, y2: number): Mark => ({
  tag: 'line',
  attributes: { class: className, x1: cut(x1), y1: cut(y1), x2: cut(x2), y2: cut(y2) },
})

export const path = (className: string, d: string, title?: string): Mark => ({
  tag: 'path',
  attributes: { class: className, d },
  ...(title === undefined ? {} : { title }),
})

/** A rectangle of which the corners may be given in any order. */
export const box = (
  className: string,
  [x1, y1, x2, y2]: readonly [number, number, number, number],
  title?: string,
): Mark => ({
  tag: 'rect',
  attributes: {
    class: className,
    x: cut(Math.min(x1, x2)),
    y: cut(Math.min(y1, y2)),
    width: cut(Math.abs(x2 - x1)),
    height: cut(Math.abs(y2 - y1)),
  },
  ...(title === undefined ? {} : { title }),
})

export const dot = (className: string, x: number, y: number, radius: number, title?: string): Mark => ({
  tag: 'circle',
  attributes: { class: className, cx: cut(x), cy: cut(y), r: radius },
  ...(title === undefined ? {} : { title }),
})

export type Anchor = 'start' | 'middle' | 'end'

export const label = (
  className: string,
  x: number,
  y: number,
  text: string,
  anchor: Anchor = 'start',
  attributes: Mark['attributes'] = {},
): Mark => ({
  tag: 'text',
  attributes: { class: className, x: cut(x), y: cut(y), 'text-anchor': anchor, ...attributes },
  text,
})

/** A mark that can be pressed and reached by keyboard: `choice` comes back to the view's callback. */
export const choosable = (mark: Mark, choice: string, says: string, chosen = false): Mark => ({
  ...mark,
  key: `choice ${choice}`,
  title: says,
  attributes: {
    ...mark.attributes,
    class: `${mark.attributes.class ?? ''} choosable${chosen ? ' chosen' : ''}`,
    'data-choice': choice,
    tabindex: 0,
    role: 'button',
    'aria-label': says,
    'aria-pressed': String(chosen),
  },
})

/** Path through points; a null breaks it. */
export function pathThrough(points: readonly (readonly [number, number] | null)[]): string {
  let d = ''
  let pen = false
  for (const point of points) {
    if (!point) {
      pen = false
      continue
    }
    d += `${pen ? 'L' : 'M'}${cut(point[0])} ${cut(point[1])}`
    pen = true
  }
  return d
}

/** Every mark of a drawing, depth first. */
export function allMarks(marks: readonly Mark[]): Mark[] {
  return marks.flatMap((mark) => [mark, ...allMarks(mark.children ?? [])])
}

/** Width of a text in a sans face, pixels, rather too wide than too narrow: it keeps labels apart. */
export const textWidth = (text: string, fontPixels: number): number => text.length * fontPixels * 0.61

const cut = (value: number): number => Math.round(value * 10) / 10
