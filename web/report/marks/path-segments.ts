/** A step of an outline with every place absolute, pixels: straight, curved by two handles, or back to its start. */
export type Segment =
  | readonly ['M' | 'L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z']

/** Scale, turn and shift as SVG writes them: x′ = ax + cy + e, y′ = bx + dy + f. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number]

/**
 * Reads an SVG path (SVG 2, 9.3): every command, arcs as curves of at most a quarter turn (their parametrisation
 * as in SVG 2, appendix B.2.4). What cannot be read is a mistake of ours.
 */
export function readPath(d: string): Segment[] {
  const words = d.match(/[a-zA-Z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g) ?? []
  const segments: Segment[] = []
  let at = 0
  let command = ''
  let [x, y, startX, startY] = [0, 0, 0, 0]
  let handle: readonly [number, number] | null = null
  const number = () => {
    const value = Number(words[at++])
    if (!Number.isFinite(value))
      throw new Error(`This path cannot be read at word ${at} of: ${d.slice(0, 80)}`)
    return value
  }
  const curve = (x1: number, y1: number, x2: number, y2: number, toX: number, toY: number) => {
    segments.push(['C', x1, y1, x2, y2, toX, toY])
    ;[x, y] = [toX, toY]
  }
  while (at < words.length) {
    if (/[a-zA-Z]/.test(words[at] as string)) command = words[at++] as string
    const kind = command.toUpperCase()
    const relative = command !== kind
    const ahead = () => number() + (relative ? x : 0)
    const down = () => number() + (relative ? y : 0)
    let nextHandle: readonly [number, number] | null = null
    if (kind === 'Z') {
      segments.push(['Z'])
      ;[x, y] = [startX, startY]
    } else if (kind === 'M' || kind === 'L') {
      const [toX, toY] = [ahead(), down()]
      segments.push([kind, toX, toY])
      ;[x, y] = [toX, toY]
      if (kind === 'M') {
        ;[startX, startY] = [x, y]
        command = relative ? 'l' : 'L'
      }
    } else if (kind === 'H' || kind === 'V') {
      if (kind === 'H') x = ahead()
      else y = down()
      segments.push(['L', x, y])
    } else if (kind === 'C' || kind === 'S') {
      const first: readonly [number, number] =
        kind === 'C' ? [ahead(), down()] : handle ? [2 * x - handle[0], 2 * y - handle[1]] : [x, y]
      const second = [ahead(), down()] as const
      nextHandle = second
      curve(...first, ...second, ahead(), down())
    } else if (kind === 'Q' || kind === 'T') {
      const bend: readonly [number, number] =
        kind === 'Q' ? [ahead(), down()] : handle ? [2 * x - handle[0], 2 * y - handle[1]] : [x, y]
      const to = [ahead(), down()] as const
      nextHandle = bend
      curve(
        x + (2 / 3) * (bend[0] - x),
        y + (2 / 3) * (bend[1] - y),
        to[0] + (2 / 3) * (bend[0] - to[0]),
        to[1] + (2 / 3) * (bend[1] - to[1]),
        ...to,
      )
    } else if (kind === 'A') {
      const radii = [Math.abs(number()), Math.abs(number())] as const
      const turn = (number() * Math.PI) / 180
      const [large, sweep] = [number() !== 0, number() !== 0]
      const to = [ahead(), down()] as const
      segments.push(...arcCurves([x, y], to, radii, turn, large, sweep))
      ;[x, y] = to
    } else throw new Error(`This path holds a command that is none, ${command}: ${d.slice(0, 80)}`)
    handle = nextHandle
  }
  return segments
}

type Pair = readonly [number, number]

function arcCurves(
  from: Pair,
  to: Pair,
  radii: Pair,
  turn: number,
  large: boolean,
  sweep: boolean,
): Segment[] {
  if (from[0] === to[0] && from[1] === to[1]) return []
  if (radii[0] === 0 || radii[1] === 0) return [['L', ...to]]
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  const [halfX, halfY] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2]
  const x1 = cos * halfX + sin * halfY
  const y1 = -sin * halfX + cos * halfY
  const reach = Math.sqrt(Math.max(1, (x1 / radii[0]) ** 2 + (y1 / radii[1]) ** 2))
  const [rx, ry] = [radii[0] * reach, radii[1] * reach]
  const rest = (rx * ry) ** 2 - (rx * y1) ** 2 - (ry * x1) ** 2
  const factor = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, rest) / ((rx * y1) ** 2 + (ry * x1) ** 2))
  const [cx1, cy1] = [(factor * rx * y1) / ry, (-factor * ry * x1) / rx]
  const cx = cos * cx1 - sin * cy1 + (from[0] + to[0]) / 2
  const cy = sin * cx1 + cos * cy1 + (from[1] + to[1]) / 2
  const start = Math.atan2((y1 - cy1) / ry, (x1 - cx1) / rx)
  let sweepBy = Math.atan2((-y1 - cy1) / ry, (-x1 - cx1) / rx) - start
  if (sweep && sweepBy < 0) sweepBy += 2 * Math.PI
  if (!sweep && sweepBy > 0) sweepBy -= 2 * Math.PI
  const steps = Math.max(1, Math.ceil(Math.abs(sweepBy) / (Math.PI / 2) - 1e-9))
  const step = sweepBy / steps
  const reachOfHandle = (4 / 3) * Math.tan(step / 4)
  const place = (angle: number, along: number): Pair => {
    const [u, v] = [
      rx * (Math.cos(angle) - along * Math.sin(angle)),
      ry * (Math.sin(angle) + along * Math.cos(angle)),
    ]
    return [cx + cos * u - sin * v, cy + sin * u + cos * v]
  }
  return Array.from({ length: steps }, (_, part): Segment => {
    const [begin, end] = [start + part * step, start + (part + 1) * step]
    return [
      'C',
      ...place(begin, reachOfHandle),
      ...place(end, -reachOfHandle),
      ...(part === steps - 1 ? to : place(end, 0)),
    ]
  })
}

/** A whole circle as four curves: at most 0.03 % of the radius off. */
export function circlePath(x: number, y: number, radius: number): Segment[] {
  const k = 0.5522847498 * radius
  return [
    ['M', x + radius, y],
    ['C', x + radius, y + k, x + k, y + radius, x, y + radius],
    ['C', x - k, y + radius, x - radius, y + k, x - radius, y],
    ['C', x - radius, y - k, x - k, y - radius, x, y - radius],
    ['C', x + k, y - radius, x + radius, y - k, x + radius, y],
    ['Z'],
  ]
}

export function moved(segments: readonly Segment[], [a, b, c, d, e, f]: Matrix): Segment[] {
  const x = (px: number, py: number) => a * px + c * py + e
  const y = (px: number, py: number) => b * px + d * py + f
  return segments.map((one): Segment => {
    if (one[0] === 'Z') return one
    if (one[0] !== 'C') return [one[0], x(one[1], one[2]), y(one[1], one[2])]
    return [
      'C',
      x(one[1], one[2]),
      y(one[1], one[2]),
      x(one[3], one[4]),
      y(one[3], one[4]),
      x(one[5], one[6]),
      y(one[5], one[6]),
    ]
  })
}

export const unmoved: Matrix = [1, 0, 0, 1, 0, 0]

/** First `inner`, then `outer`. */
export const joinedMatrix = (outer: Matrix, inner: Matrix): Matrix => [
  outer[0] * inner[0] + outer[2] * inner[1],
  outer[1] * inner[0] + outer[3] * inner[1],
  outer[0] * inner[2] + outer[2] * inner[3],
  outer[1] * inner[2] + outer[3] * inner[3],
  outer[0] * inner[4] + outer[2] * inner[5] + outer[4],
  outer[1] * inner[4] + outer[3] * inner[5] + outer[5],
]

/** Reads an SVG `transform`: translate, scale, rotate (about a place too) and matrix, one after the other. */
export function readTransform(text: string | undefined): Matrix {
  let sum = unmoved
  for (const [, name, inside] of (text ?? '').matchAll(/(\w+)\(([^)]*)\)/g)) {
    const words = (inside ?? '')
      .trim()
      .split(/[\s,]+/)
      .map(Number)
    const [one = 0, two, three = 0] = words
    if (name === 'translate') sum = joinedMatrix(sum, [1, 0, 0, 1, one, two ?? 0])
    else if (name === 'scale') sum = joinedMatrix(sum, [one, 0, 0, two ?? one, 0, 0])
    else if (name === 'matrix' && words.length === 6) sum = joinedMatrix(sum, words as unknown as Matrix)
    else if (name === 'rotate') {
      const [cos, sin] = [Math.cos((one * Math.PI) / 180), Math.sin((one * Math.PI) / 180)]
      const [x, y] = [two ?? 0, three]
      sum = joinedMatrix(sum, [cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y])
    } else throw new Error(`This transform is not known to a drawing on paper: ${name}(${inside})`)
  }
  return sum
}
