import { asSentence } from '../keep-units.ts'
import { drawnMarks } from '../marks/drawn-marks.ts'
import type { NumberedFigure } from '../numbered.ts'
import { drawFigure } from './draw-figure.ts'
import type { Pen } from './pen.ts'
import type { Piece } from './piece.ts'
import { figureFontPixels, figurePixelPoints, hairline, styles } from './sheet.ts'
import { drawLines, leadingOf, linesOf, type Setting } from './text-pieces.ts'

/** A drawing with its caption below it, as one piece. */
export function figurePiece(figure: NumberedFigure, setting: Setting): Piece {
  const wide = figure.wide === true
  const width = wide ? setting.sheet.whole.width : setting.column.width
  const set = setFigure(figure, width, figurePixelPoints, setting)
  return {
    height: set.height + 8,
    before: 12,
    keepsNext: false,
    wide,
    anchor: figure.anchor,
    draw: set.draw,
  }
}

/** Two drawings side by side, alike in height. */
export function figurePairPiece(
  [left, right]: readonly [NumberedFigure, NumberedFigure],
  setting: Setting,
): Piece {
  const gap = 14
  const wide = left.wide === true || right.wide === true
  const room = (wide ? setting.sheet.whole.width : setting.column.width) - gap
  const share = left.aspect / (left.aspect + right.aspect)
  const widths = [room * share, room * (1 - share)] as const
  const scale = wide ? figurePixelPoints : figurePixelPoints * 0.85
  const sets = [
    setFigure(left, widths[0], scale, setting),
    setFigure(right, widths[1], scale, setting),
  ] as const
  return {
    height: Math.max(sets[0].height, sets[1].height) + 8,
    before: 12,
    keepsNext: false,
    wide,
    anchor: left.anchor,
    draw: (pen, x, y) => {
      sets[0].draw(pen, x, y)
      sets[1].draw(pen, x + widths[0] + gap, y)
    },
  }
}

function setFigure(figure: NumberedFigure, width: number, scale: number, { pen, root, sheet }: Setting) {
  const words = [
    { strong: `Figure ${figure.number}. ` },
    figure.standsFor
      ? `${asSentence(figure.caption)} The numbers are in Table ${figure.standsFor.number}.`
      : figure.caption,
  ]
  const lines = linesOf(words, styles.caption, width, pen)
  const captionHeight = lines.length * leadingOf(styles.caption) + 5
  const most = sheet.bottom - sheet.top - captionHeight - 60
  const high = Math.min(width / figure.aspect, most)
  const size = { widthPixels: width / scale, heightPixels: high / scale }
  // Who hears the drawing hears its caption first.
  const element = pen.element('Figure', root, `${asSentence(figure.caption)} ${figure.alternative}`)
  const caption = pen.element('Caption', element)
  return {
    height: high + captionHeight,
    draw: (own: Pen, x: number, y: number) => {
      own.belongsTo(element)
      element.dictionary.data.A = {
        O: 'Layout',
        Placement: 'Block',
        BBox: [x, sheet.height - y - high, x + width, sheet.height - y],
      }
      const room = { ...size, fontPixels: figureFontPixels }
      drawFigure(own, drawnMarks(figure.scene(room), figure.scope, figureFontPixels), x, y, size, scale)
      own.artifact()
      own.rule(x, y + high + 1, x + width, y + high + 1, 0.4, hairline)
      own.belongsTo(caption)
      drawLines(own, lines, x, y + high + 4, styles.caption)
    },
  }
}
