import type { Palette } from '../../ui/palettes.ts'
import type { FigureScope } from '../document.ts'

/** A colour of the palette, the line's own colour that an ink sets, or none. */
export type Paint = keyof Palette | 'line' | 'none'

/** What a class gives to a mark, and by inheritance to what it holds; pixels of the figure's room. */
export interface MarkStyle {
  readonly fill?: Paint
  readonly fillOpacity?: number
  readonly stroke?: Paint
  readonly strokeOpacity?: number
  readonly strokeWidth?: number
  /** Lengths drawn and left out; 'line': the dash that an ink sets; empty: unbroken. */
  readonly dash?: readonly number[] | 'line'
  readonly round?: boolean
  /** The colour and dash that 'line' stands for from here on. */
  readonly line?: Paint
  readonly lineDash?: readonly number[]
  readonly bold?: boolean
  readonly italic?: boolean
  /** Part of the figure's text size. */
  readonly fontShare?: number
  /** Text: a rim of that breadth and colour below it, that keeps it apart from lines. */
  readonly haloPixels?: number
  readonly halo?: Paint
}

/** Selectors of CSS that the table is written with: tags, classes, `:not(.class)`, descent, commas. Later rules win. */
export type StyleRule = readonly [selectors: string, style: MarkStyle]

const rim = (haloPixels: number, halo: Paint = 'halo'): MarkStyle => ({ haloPixels, halo })
const dashed = (stroke: Paint, strokeWidth: number, ...dash: number[]): MarkStyle => ({
  stroke,
  strokeWidth,
  dash,
})

/** Of every view: the same classes as its style sheet, so that paper and screen are one drawing. */
const everywhere: readonly StyleRule[] = [
  ['.pane', { fill: 'none', stroke: 'rule' }],
  ['.rule', { stroke: 'rule', strokeWidth: 0.6 }],
  ['.rule.strong, .rule.zero', { stroke: 'inkSoft', strokeWidth: 0.9 }],
  ['.tick, .axis-name, .pane-source', { fill: 'inkSoft' }],
  ['.tick.strong', { fill: 'ink', bold: true }],
  ['.pane-name', { bold: true }],
  ['.message', { bold: true, ...rim(5) }],
  ['.value-text', rim(3)],
  ['.text-ground', { fill: 'halo', fillOpacity: 0.85 }],
  ['.soft', { fill: 'inkSoft' }],
  ['.strong', { bold: true }],
  ['.ink-0', { line: 'accent', lineDash: [] }],
  ['.ink-1', { line: 'settled', lineDash: [7, 3] }],
  ['.ink-2', { line: 'tunnel', lineDash: [2, 2.5] }],
  ['.ink-3', { line: 'met', lineDash: [10, 3, 2, 3] }],
  ['.ink-4', { line: 'ink', lineDash: [1, 3] }],
  ['.ink-5', { line: 'service', lineDash: [14, 4] }],
  ['.dash-1', { lineDash: [4, 1.5] }],
  ['.dash-2', { lineDash: [1.5, 1.5] }],
  ['.companion', { line: 'inkSoft' }],
  ['.trace', { fill: 'none', stroke: 'line', strokeWidth: 1.5, dash: 'line', round: true }],
  ['.plate', { stroke: 'ink', strokeWidth: 1.3 }],
  ['.plate:not(.reached)', { fill: 'sheet' }],
  ['.standing-late .plate, .standing-unknown .plate', { dash: [4, 2.5] }],
  ['.standing-within .plate:not(.reached)', { fill: 'withinLevels' }],
  ['.glyph', { fill: 'none', stroke: 'ink', strokeWidth: 2.2, round: true }],
  ['.glyph.on-fill', { stroke: 'sheet' }],
  ['.glyph-solids', { fill: 'ink', stroke: 'none' }],
  ['.glyph.on-fill .glyph-solids', { fill: 'sheet' }],
  ['.numeral-plate', { fill: 'ink', stroke: 'halo', strokeWidth: 1.2 }],
  ['.hatch', { stroke: 'inkSoft', strokeWidth: 1.4, fill: 'none' }],
  ['.numeral', { bold: true, fill: 'sheet' }],
  // What is being looked at on the screen is no fact of the report: chosen marks are drawn like the others.
  ['.choosable, .chosen', {}],
]

const depthProfile: readonly StyleRule[] = [
  ['.stratum', { stroke: 'rule', dash: [6, 4], fill: 'ground' }],
  ['.stratum-1', { fill: 'made' }],
  ['.stratum-2', { fill: 'sheet' }],
  ['.stratum-3', { fill: 'raised' }],
  ['.stratum-name', { fill: 'inkSoft', italic: true, ...rim(3) }],
  ['.collar', { stroke: 'wall', strokeWidth: 2 }],
  ['.expected', { fill: 'inkSoft', fillOpacity: 0.14, ...dashed('inkSoft', 1, 5, 3) }],
  ['.hydrostatic', { fill: 'none', ...dashed('waterLine', 1.8, 8, 4) }],
  ['.water-level', dashed('waterLine', 1, 2, 3)],
  ['.still', { stroke: 'ink', strokeWidth: 3.5 }],
  ['.level', dashed('lastLevel', 1.5, 12, 3, 3, 3)],
  ['.level-1', dashed('firstLevel', 1.5, 12, 4)],
  ['.past', { fill: 'line', stroke: 'line', strokeWidth: 1.3 }],
  ['.past.late', { fill: 'sheet', dash: [3, 2] }],
  ['.key-now', { fill: 'sheet', stroke: 'ink' }],
  ['.absent', { fill: 'notMet', italic: true }],
  ['.trace.not-current', { strokeWidth: 1.5, dash: [0.1, 6] }],
  ['.total-stress', { fill: 'none', ...dashed('inkSoft', 1.5, 12, 3) }],
  ['.effective', { fill: 'none', stroke: 'line', strokeWidth: 1.8 }],
  ['.effective.late', { dash: [2, 2] }],
  ['.strain', { stroke: 'ink', strokeWidth: 2.6 }],
  ['.strain.late', dashed('inkSoft', 2.6, 3, 3)],
]

const figure: readonly StyleRule[] = [
  ['.figure-curve', { fill: 'none', stroke: 'ink', strokeWidth: 1.7, round: true }],
  ['.figure-curve.fitted', { stroke: 'accent', strokeWidth: 2 }],
  ['.figure-curve.predicted', dashed('tunnel', 1.7, 9, 4)],
  ['.figure-curve.earlier', dashed('inkSoft', 1.7, 2, 3)],
  ['.figure-curve.limit', dashed('lastLevel', 1.7, 12, 3, 3, 3)],
  ['.figure-band', { fill: 'accent', fillOpacity: 0.16, stroke: 'none' }],
  ['.figure-bar', { stroke: 'inkSoft', strokeWidth: 1.1 }],
  ['.figure-point.plate:not(.reached)', { fill: 'ink', stroke: 'halo' }],
  ['.cloud .figure-point.plate:not(.reached)', { fillOpacity: 0.45, stroke: 'none' }],
  ['.figure-point.plate.left-out:not(.reached)', { fill: 'sheet', stroke: 'ink' }],
  ...[0.08, 0.26, 0.44, 0.62, 0.8, 1].map((fillOpacity, shade): StyleRule => {
    const style = { fill: 'ink', fillOpacity, stroke: 'ink', strokeWidth: 0.5 } as const
    return [`.figure-point.plate.shade-${shade}:not(.reached)`, style]
  }),
  ['.figure-end', { fill: 'none', stroke: 'ink', strokeWidth: 2 }],
  ['.figure-stroke', { stroke: 'ink', strokeWidth: 1.3 }],
  ['.figure-rule', dashed('inkSoft', 1.1, 5, 3)],
]

const section: readonly StyleRule[] = [
  ['.earth', { fill: 'ground' }],
  ['.ground-line', { fill: 'none', stroke: 'ink', strokeWidth: 1.8 }],
  ['.stratum', { stroke: 'inkSoft', strokeWidth: 0.8, fill: 'made' }],
  ['.stratum-body', { fill: 'made', fillOpacity: 0.45, stroke: 'none' }],
  ['.stratum-1', { fill: 'rule' }],
  ['.stratum-2', { fill: 'excavation' }],
  ['.stratum-3', { fill: 'buildingLine' }],
  ['.stratum-4', { fill: 'raised' }],
  ['.stratum-name', { fill: 'inkSoft', italic: true, ...rim(3, 'ground') }],
  ['.between-holes', dashed('inkSoft', 1.1, 8, 6)],
  ['.between-holes.joined', { dash: [] }],
  ['.works', { stroke: 'inkSoft', strokeWidth: 1 }],
  ['.works-excavation', { fill: 'paper', stroke: 'none' }],
  ['.formation', { stroke: 'ink', strokeWidth: 2.2 }],
  ['.works-wall.there', { fill: 'wall', stroke: 'none' }],
  ['.works-building', { fill: 'building', stroke: 'buildingLine' }],
  ['.works-obstruction', { fill: 'made', stroke: 'buildingLine' }],
  ['.works-dock', { fill: 'water', stroke: 'waterLine' }],
  ['.works-tunnel.there', { fill: 'paper', stroke: 'tunnel', strokeWidth: 2.6 }],
  ['.works-service', { fill: 'sheet', stroke: 'service', strokeWidth: 1.8 }],
  ['.works.to-come', { fill: 'none', ...dashed('inkSoft', 1, 3, 4) }],
  ['.works-name', { fill: 'inkSoft', ...rim(3) }],
  ['.well', { stroke: 'ink', strokeWidth: 1.8 }],
  ['.well-screen', { fill: 'sheet', ...dashed('ink', 1.3, 3, 2) }],
  ['.hole', { fill: 'none', stroke: 'ink', strokeWidth: 1.8 }],
  ['.hole.projected', { dash: [6, 3] }],
  ['.leader', { stroke: 'rule', strokeWidth: 0.8 }],
  ['.hole-name, .end-name', { bold: true, ...rim(4) }],
  ['.shape', { fill: 'none', stroke: 'settled', strokeWidth: 2.2 }],
  ['.shape.late', { dash: [4, 3] }],
  ['.settlement', { fill: 'none', ...dashed('settled', 1.8, 9, 3) }],
  ['.settlement-stem', { stroke: 'settled', strokeWidth: 1.3 }],
  ['.settlement.late, .settlement-stem.late', { dash: [0.1, 5], round: true }],
  ['.water-stem', dashed('waterLine', 1.1, 2, 3)],
  ['.water-mark', { fill: 'waterLine', stroke: 'waterLine', strokeWidth: 1.3 }],
  ['.water-mark.late', { fill: 'none', dash: [3, 2] }],
  ['.water-text', { fill: 'inkSoft' }],
  ['.water-line', { stroke: 'waterLine', strokeWidth: 1.8 }],
  ['.bend', dashed('inkSoft', 1, 2, 4)],
  ['.leaves', { stroke: 'ink', strokeWidth: 2.6 }],
]

const level = { stroke: 'lastLevel', strokeWidth: 1.4 } as const
const timeHistory: readonly StyleRule[] = [
  ['.trace.companion', { strokeWidth: 1 }],
  ['.trace.joined', { strokeWidth: 1.1, dash: [9, 5], strokeOpacity: 0.7 }],
  ['.band', { fill: 'line', fillOpacity: 0.22, stroke: 'none' }],
  ['.bars', { fill: 'none', stroke: 'waterLine', strokeWidth: 2 }],
  ['.reading', { fill: 'line', stroke: 'line', strokeWidth: 1 }],
  ['.reading.received-late', { fill: 'sheet' }],
  ['.reading.joined', { fillOpacity: 0.25 }],
  ['.reading.later', { fill: 'sheet' }],
  ['.trace.later', { strokeWidth: 1.4, dash: [1.5, 4], strokeOpacity: 0.75 }],
  ['.later-stretch', { fill: 'sheet', ...dashed('ink', 1, 2, 2) }],
  ['.join', { ...dashed('ink', 1.3, 6, 2, 1, 2) }],
  ['.at-clock', { fill: 'sheet', stroke: 'line', strokeWidth: 2 }],
  ['.end-name', { fill: 'line', bold: true }],
  ['.late-stretch', { fill: 'firstLevel', fillOpacity: 0.4, ...dashed('ink', 0.9, 2, 2) }],
  ['.check-suspect, .check-fails, .verdict', { fill: 'sheet', stroke: 'ink', strokeWidth: 1.4 }],
  ['.check-fails', { fill: 'none', strokeWidth: 2 }],
  ['.verdict.accepted, .verdict.doubtful', { fill: 'inkSoft' }],
  ['.approved', { fill: 'ink' }],
  ['.not-told', { fill: 'inkSoft' }],
  ['.provisional', { fill: 'sheet', ...dashed('inkSoft', 0.9, 4, 3) }],
  ['.proposed', { fill: 'accent', fillOpacity: 0.14, ...dashed('accent', 1.8, 6, 4) }],
  ['.no-value', dashed('notMet', 3.4, 2, 1)],
  ['.level', { fill: 'none', ...level }],
  ['.level-1', { fill: 'none', ...dashed('firstLevel', 1.4, 12, 4) }],
  ['.level-2', { dash: [12, 3, 3, 3] }],
  ['.level-3, .level-4, .level-5, .level-6', {}],
  ['.hold', { fill: 'none', ...dashed('ink', 1.4, 3, 3) }],
  ['text.level, text.hold, text.beyond, text.join', { fill: 'ink', stroke: 'none', dash: [], ...rim(4) }],
  ['.verdict-name', { fontShare: 0.92, ...rim(4) }],
  ['.expected', { fill: 'none', stroke: 'ink', strokeWidth: 1.8 }],
  ['.expected-band', { fill: 'accent', fillOpacity: 0.1, ...dashed('accent', 0.8, 5, 3) }],
  ['.expected-switch', dashed('accent', 1.2, 3, 3)],
  ['.stage', { fill: 'excavation', stroke: 'rule' }],
  ['.stage-name', { fontShare: 0.92 }],
  ['.stage-start', dashed('inkSoft', 0.8, 1, 4)],
  ['.diary', { fill: 'ink' }],
  ['.clock-line', { stroke: 'ink', strokeWidth: 1.2 }],
  ['.clock-plate, .clock-grip', { fill: 'ink' }],
  ['.clock-text', { fill: 'sheet', bold: true }],
]

const plan: readonly StyleRule[] = [
  ['.plan-ground', { fill: 'ground', stroke: 'none' }],
  ['.plan-frame', { fill: 'none', stroke: 'ink', strokeWidth: 1 }],
  ['.plan-tick', { stroke: 'inkSoft', strokeWidth: 0.8 }],
  ['.plan-cross', { stroke: 'rule', strokeWidth: 0.8 }],
  ['.works', { fill: 'none', stroke: 'inkSoft', strokeWidth: 1 }],
  ['.works-shore, .works-dock', { fill: 'water', stroke: 'waterLine', strokeWidth: 1.2 }],
  ['.works-boundary', { fill: 'made', ...dashed('buildingLine', 1, 8, 3, 1.5, 3) }],
  ['.works-excavation', { fill: 'excavation', stroke: 'buildingLine', strokeWidth: 1.1 }],
  ['.works-building', { fill: 'building', stroke: 'buildingLine' }],
  ['.works-obstruction', { fill: 'buildingLine', fillOpacity: 0.6, stroke: 'none' }],
  ['.works-tunnel', { fill: 'tunnel', fillOpacity: 0.25, stroke: 'tunnel', strokeWidth: 1 }],
  ['.works-tunnel.open', { ...dashed('tunnel', 6), strokeOpacity: 0.3 }],
  ['.works-service', { fill: 'none', ...dashed('service', 1.2, 6, 3) }],
  ['.works-wall', { fill: 'wall', stroke: 'wall', strokeWidth: 2.4 }],
  ['.works.open', { fill: 'none' }],
  ['.works.to-come', { fill: 'none', strokeOpacity: 1, ...dashed('inkSoft', 0.9, 3, 3) }],
  ['.works-name', { fill: 'planLabel', italic: true, ...rim(3) }],
  ['.well-ring', { fill: 'sheet', stroke: 'ink', strokeWidth: 1.4 }],
  ['.well-pumped', { fill: 'ink' }],
  ['.alignment', { fill: 'none', ...dashed('ink', 0.9, 14, 3, 2, 3) }],
  ['.chainage', { stroke: 'ink', strokeWidth: 0.9 }],
  ['.chainage-name', { fill: 'ink', ...rim(2.5) }],
  ['.band-fill', { stroke: 'none' }],
  ['.contour', { fill: 'none', stroke: 'ink', strokeWidth: 1.1 }],
  ['.contour.main', { strokeWidth: 2 }],
  ['.contour.settles', { stroke: 'settled' }],
  ['.contour.heave', { stroke: 'heaved' }],
  ['.contour.of-level', { stroke: 'waterLine' }],
  ['.contour.uncertain', { dash: [6, 4] }],
  ['.contour-name', { fill: 'ink', bold: true, ...rim(4) }],
  ['.contour-name.settles', { fill: 'settled' }],
  ['.contour-name.heave', { fill: 'heaved' }],
  ['.masked', { fill: 'none', stroke: 'inkSoft', strokeWidth: 0.7 }],
  ['.masked-edge', { fill: 'none', ...dashed('inkSoft', 0.8, 2, 2) }],
  ['.slope-shaft', { fill: 'none', stroke: 'ink', strokeWidth: 1.2 }],
  ['.slope-head', { fill: 'ink', stroke: 'ink', strokeWidth: 1 }],
  ['.slope-head.unknown, .slope-head.none', { fill: 'sheet' }],
  ['.part-late', dashed('ink', 2, 2, 1.5)],
  ['.came-later-plate', { fill: 'sheet', stroke: 'ink', strokeWidth: 1 }],
  ['.came-later-glass', { fill: 'ink', stroke: 'ink', strokeWidth: 0.8, round: true }],
  ['.change', { fill: 'ink', stroke: 'ink', strokeWidth: 1.3 }],
  ['.bar-full', { fill: 'ink', stroke: 'ink', strokeWidth: 0.8 }],
  ['.bar-open', { fill: 'sheet', stroke: 'ink', strokeWidth: 0.8 }],
  ['.north', { fill: 'ink', stroke: 'ink', strokeWidth: 0.8 }],
  ['.north-open', { fill: 'sheet', stroke: 'ink', strokeWidth: 0.8 }],
  ['.key-plate', { fill: 'sheet', stroke: 'inkSoft', strokeWidth: 0.8 }],
]

const own: Readonly<Record<FigureScope, readonly StyleRule[]>> = {
  section,
  figure,
  'time-history': timeHistory,
  'depth-profile': depthProfile,
  'plan-figure': plan,
}

/** Every rule of a view's drawings, weakest first. */
export const rulesOf = (scope: FigureScope): readonly StyleRule[] => [...everywhere, ...own[scope]]

/** Classes that name a part of a drawing and colour nothing. */
export const plainClasses: ReadonlySet<string> = new Set([
  ...[
    'absent',
    'axes',
    'bands',
    'changes',
    'furniture',
    'gone',
    'key-row',
    'of-slope',
    'sheet',
    'sheet-frame',
    'slopes',
    'surface',
    'told',
  ],
  ...['bands', 'bends', 'clock', 'cloud', 'contours', 'curve', 'curves', 'dash-0', 'expected', 'fitted'],
  ...['glyph-lines', 'grid', 'ground', 'holes', 'key', 'key-name', 'late', 'lines', 'messages', 'name'],
  ...[
    'names',
    'none',
    'pane-marks',
    'points',
    'proposed',
    'reached',
    'references',
    'rejected',
    'rules',
    'scale-text',
  ],
  ...[
    'scales',
    'settlements',
    'stages',
    'standing',
    'standing-level',
    'standing-no-level',
    'standing-out-of-use',
    'strains',
  ],
  ...['strata', 'stratum-0', 'stresses', 'there', 'values', 'water', 'water-lines', 'wells', 'works-cut'],
])
