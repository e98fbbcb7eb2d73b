import { kindNames } from '../../ui/kind-names.ts'
import type { Standing } from '../../ui/state-scale.ts'
import { concernOf, standingName } from '../../ui/state-scale.ts'
import { box, dot, group, label, line, type Mark, path, textWidth } from '../marks/mark.ts'
import { standingMark } from '../marks/standing-marks.ts'
import { worksAt } from '../plan-map/works-phases.ts'
import { cameLaterMark } from './came-later-mark.ts'
import { keyRowShare, shownSymbols } from './plan-figure-layout.ts'
import type { PlanFigureProps, PlanFigureSize } from './plan-figure-props.ts'
import { bandFill } from './plan-surface-marks.ts'

interface KeyRow {
  /** In a room of 2.4 by 1.2 text sizes, its middle at the origin. */
  readonly marks: readonly Mark[]
  readonly means: string
}

export interface PlanKey {
  readonly rows: number
  readonly columns: number
  readonly entries: readonly KeyRow[]
}

const signRoom = 2.8
/** Text of the key against that of the plan. */
const keyShare = 0.86

/** What the signs that this plan shows mean, in as many columns as have room. */
export function planKey(props: PlanFigureProps, size: PlanFigureSize): PlanKey {
  const entries = keyRows(props, size.fontPixels)
  const broadest = Math.max(0, ...entries.map(({ means }) => textWidth(means, size.fontPixels * keyShare)))
  const room = broadest + size.fontPixels * (signRoom + 0.8)
  const columns = Math.max(1, Math.floor((size.widthPixels - size.fontPixels * 2) / room))
  return { columns, rows: Math.ceil(entries.length / columns), entries }
}

/** The key below the frame, read down its columns. */
export function planKeyMarks(key: PlanKey, size: PlanFigureSize, topPixels: number): Mark[] {
  const font = size.fontPixels
  const left = font * 1.7
  const step = (size.widthPixels - left) / key.columns
  return key.entries.map(({ marks, means }, place) => {
    const x = left + Math.floor(place / key.rows) * step
    const y = topPixels + ((place % key.rows) + 0.5) * font * keyRowShare
    return group('key-row', [
      group('', marks, { transform: `translate(${(x + font * 1.2).toFixed(1)} ${y.toFixed(1)})` }),
      label('key-name', x + font * signRoom, y + font * 0.3, means, 'start', {
        'font-size': font * keyShare,
      }),
    ])
  })
}

function keyRows(props: PlanFigureProps, font: number): KeyRow[] {
  const rows: KeyRow[] = []
  const add = (shown: boolean, means: string, ...marks: Mark[]) => {
    if (shown) rows.push({ means, marks })
  }
  const [half, high] = [font * 1.1, font * 0.5]
  const sample = (className: string) => line(className, -half, 0, half, 0)
  const area = (className: string) => box(className, [-half, -high, half, high])
  const levels = props.levelNames.length
  const sign = (standing: Standing) =>
    standingMark(0, standing.startsWith('level-') ? font * 0.15 : 0, font * 0.5, standing, levels, null)
  const symbols = shownSymbols(props)
  const standings = [...new Set(symbols.map(({ standing }) => standing))]
  for (const standing of standings.toSorted((one, other) => concernOf(other) - concernOf(one)))
    add(true, standingName(standing, props.levelNames), sign(standing))
  add(
    symbols.some(({ partLate, standing }) => partLate && standing !== 'late'),
    'some of its points without current data',
    path('part-late', `M${-half * 0.7} 0h${half * 1.4}`),
  )
  const plate = font * 0.66
  add(
    symbols.some(({ cameLater }) => cameLater),
    'a value of it came later than this instant',
    cameLaterMark(plate * 0.875, -plate * 0.875, plate),
  )
  for (const kind of new Set(symbols.map((symbol) => symbol.kind)))
    add(true, kindNames[kind], standingMark(0, 0, Math.max(7, font * 0.66), 'no-level', levels, kind))
  const works = worksAt(props.works, props.atEpochMs).features.map(({ geometry, properties }) => ({
    kind: properties.kind,
    phase: properties.phase,
    closed: geometry.type.endsWith('Polygon'),
  }))
  const has = (kind: string) => works.find((one) => one.kind === kind && one.phase === 'there')
  for (const [kind, means] of worksNames) {
    const found = has(kind)
    if (found)
      add(
        true,
        means,
        found.closed ? area(`works works-${kind} there`) : sample(`works works-${kind} there open`),
      )
  }
  add(
    works.some(({ phase }) => phase === 'to-come'),
    'works to come',
    area('works to-come'),
  )
  add(props.alignments.length > 0, 'alignment with chainage, m', sample('alignment'))
  add(props.wells.length > 0, 'well, with a dot while pumped', dot('well-ring', 0, 0, font * 0.55))
  add(props.changes.length > 0, 'change', path('change', arrowHead(0, half * 0.6, 180, font)))
  const { surface } = props
  for (const { sign: of, middle, says } of surface?.key ?? []) {
    if (surface && of === 'band' && middle !== null) {
      const mark = area('band-fill')
      rows.push({
        means: says,
        marks: [{ ...mark, attributes: { ...mark.attributes, ...bandFill(surface, middle) } }],
      })
    } else add(of === 'dashes', says, sample('contour settles uncertain'))
    add(
      of === 'hatch',
      says,
      path('masked', `M${-half} ${high}l${half} ${-high * 2}M0 ${high}l${half} ${-high * 2}`),
    )
    add(
      of === 'arrow' || of === 'open-arrow',
      says,
      sample('slope-shaft'),
      path(of === 'arrow' ? 'slope-head told' : 'slope-head unknown', arrowHead(half, 0, 90, font)),
    )
    add(of === 'ring', says, dot('slope-head none', 0, 0, font * 0.3))
  }
  return rows
}

const worksNames: readonly (readonly [kind: string, means: string])[] = [
  ['boundary', 'site boundary'],
  ['excavation', 'excavation'],
  ['wall', 'wall'],
  ['tunnel', 'tunnel'],
  ['building', 'building'],
  ['service', 'service'],
  ['obstruction', 'obstruction'],
  ['dock', 'water'],
]

/** A closed head whose point is at x, y, pointing along a bearing on the sheet. */
export function arrowHead(x: number, y: number, bearingDegrees: number, font: number): string {
  const turn = (bearingDegrees * Math.PI) / 180
  const [ahead, aside] = [font * 0.55, font * 0.24]
  const corner = (back: number, side: number) =>
    [
      x - back * Math.sin(turn) + side * Math.cos(turn),
      y + back * Math.cos(turn) + side * Math.sin(turn),
    ] as const
  const corners = [corner(0, 0), corner(ahead, aside), corner(ahead, -aside)]
  return `M${corners.map(([cx, cy]) => `${cx.toFixed(1)} ${cy.toFixed(1)}`).join('L')}Z`
}
