import { codePointName } from '../html/escape.ts'
import type { EmbeddedFont, Glyph, TaggedPdf } from './tagged-pdf.ts'

export type Face = 'regular' | 'bold' | 'oblique'

/** The bytes of the report's fonts, TrueType: one for each face. */
export type ReportFonts = Readonly<Record<Face, Uint8Array>>

/** A character that a font has no glyph for: printed by its name, and told. */
export interface NotInFont {
  readonly codePoint: string
  readonly face: Face
  /** The first text that it stands in. */
  readonly text: string
}

export interface Typeface {
  readonly font: EmbeddedFont
  /** Breadth of a text in points at that size. */
  readonly widthPoints: (text: string, sizePoints: number) => number
  /** Operand of TJ that shows the text; its glyphs are embedded from then on. */
  readonly shown: (text: string) => string
  /** Glyphs and where each begins, parts of the em. */
  readonly glyphs: (text: string) => readonly { readonly id: number; readonly atEm: number }[]
}

export interface Typefaces {
  readonly of: Readonly<Record<Face, Typeface>>
  readonly notInFont: NotInFont[]
}

/** Opens the report's faces; texts are measured by the same metrics that they are printed with. */
export function openTypefaces(pdf: TaggedPdf, fonts: ReportFonts): Typefaces {
  const notInFont: NotInFont[] = []
  const open = (face: Face): Typeface => {
    pdf.registerFont(face, fonts[face])
    const font = pdf.font(face)._font
    return openTypeface(font, (character, text) => {
      const codePoint = codePointName(character)
      if (!notInFont.some((one) => one.codePoint === codePoint && one.face === face))
        notInFont.push({ codePoint, face, text })
    })
  }
  return { of: { regular: open('regular'), bold: open('bold'), oblique: open('oblique') }, notInFont }
}

interface Run {
  readonly glyphs: readonly Glyph[]
  /** How far the pen goes on after each glyph, units of the font. */
  readonly advances: readonly number[]
  readonly advance: number
}

function openTypeface(font: EmbeddedFont, tell: (character: string, text: string) => void): Typeface {
  const { font: face, subset, widths, unicode, scale } = font
  const kept = new Map<string, Run>()
  const space = font.font.layout(' ').glyphs[0]?.advanceWidth ?? 0
  const runOf = (word: string): Run => {
    const known = kept.get(word)
    if (known) return known
    // Ligatures would hide letters from who searches the text.
    const { glyphs, positions } = face.layout(inFont(word), { liga: false, clig: false })
    const advances = positions.map(({ xAdvance }) => xAdvance)
    const run = { glyphs, advances, advance: advances.reduce((sum, one) => sum + one, 0) }
    kept.set(word, run)
    return run
  }
  const inFont = (text: string): string =>
    [...text.normalize('NFC').replace(/[\t\n\r]+/g, ' ')]
      .map((character) => {
        if (face.hasGlyphForCodePoint(character.codePointAt(0) ?? 0)) return character
        tell(character, text)
        return `[${codePointName(character)}]`
      })
      .join('')
  const wordsOf = (text: string) => text.split(/(?<= )/)
  return {
    font,
    widthPoints: (text, sizePoints) => {
      let units = 0
      for (const word of wordsOf(text)) units += word === ' ' ? space : runOf(word).advance
      return (units / face.unitsPerEm) * sizePoints
    },
    shown: (text) => {
      let operand = ''
      let codes = ''
      for (const word of wordsOf(text)) {
        const { glyphs, advances } = runOf(word)
        glyphs.forEach((glyph, place) => {
          const code = subset.includeGlyph(glyph.id)
          widths[code] ??= glyph.advanceWidth * scale
          unicode[code] ??= glyph.codePoints
          codes += code.toString(16).padStart(4, '0')
          const kern = Math.round((glyph.advanceWidth - (advances[place] ?? 0)) * scale)
          if (kern === 0) return
          operand += `<${codes}>${kern}`
          codes = ''
        })
      }
      return `[${operand}${codes === '' ? '' : `<${codes}>`}]`
    },
    glyphs: (text) => {
      let at = 0
      return wordsOf(text).flatMap((word) => {
        const { glyphs, advances } = runOf(word)
        return glyphs.map(({ id }, place) => {
          const atEm = at / face.unitsPerEm
          at += advances[place] ?? 0
          return { id, atEm }
        })
      })
    },
  }
}
