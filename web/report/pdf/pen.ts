import type { Segment } from '../marks/path-segments.ts'
import { written, writtenAll, writtenColour } from './numbers.ts'
import type { StructureElement, TaggedPdf } from './tagged-pdf.ts'
import type { Face, Typefaces } from './typeface.ts'

export interface TextStyle {
  readonly face: Face
  readonly sizePoints: number
  readonly colour: string
}

/**
 * Writes on the page that is open: points from its left upper corner, y downwards. What is written belongs to an
 * element of the structure tree or is an artifact (ISO 32000-1, 14.8.2.2): nothing is neither.
 */
export interface Pen {
  readonly pdf: TaggedPdf
  readonly faces: Typefaces
  readonly element: (type: string, holder: StructureElement, alt?: string) => StructureElement
  /** From here on what is written belongs to the element. */
  readonly belongsTo: (element: StructureElement) => void
  /** From here on what is written is no content: rules, grounds, heads and feet. */
  readonly artifact: (type?: 'Pagination' | 'Layout' | 'Background', attached?: 'Top' | 'Bottom') => void
  readonly text: (text: string, x: number, baseline: number, style: TextStyle) => void
  readonly rule: (x1: number, y1: number, x2: number, y2: number, widthPoints: number, colour: string) => void
  /** Dots from a word to its number at the line's end. */
  readonly leader: (from: number, until: number, baseline: number, colour: string) => void
  readonly ground: (x: number, y: number, width: number, height: number, colour: string) => void
  readonly operators: (text: string) => void
  /** Name of a graphics state with those opacities, in the open page's resources. */
  readonly opacity: (fill: number, stroke: number) => string
  readonly closePage: () => void
}

/** `root` is the element that all others hang from. */
export function createPen(pdf: TaggedPdf, faces: Typefaces): Pen {
  let current: StructureElement | 'artifact' | null = null
  const states = new Map<string, ReturnType<TaggedPdf['ref']>>()
  const close = () => {
    if (current !== null) pdf.endMarkedContent()
    current = null
  }
  const kinds = new Map<StructureElement, string>()
  return {
    pdf,
    faces,
    element: (type, holder, alt) => {
      const made = pdf.struct(type, alt === undefined ? {} : { alt })
      holder.add(made)
      kinds.set(made, type)
      return made
    },
    belongsTo: (element) => {
      if (current === element) return
      close()
      element.add(pdf.markStructureContent(kinds.get(element) ?? 'P'))
      current = element
    },
    artifact: (type = 'Layout', attached) => {
      if (current === 'artifact' && type === 'Layout') return
      close()
      pdf.markContent('Artifact', { type, ...(attached ? { attached: [attached] } : {}) })
      current = 'artifact'
    },
    text: (text, x, baseline, { face, sizePoints, colour }) => {
      const typeface = faces.of[face]
      pdf.page.fonts[typeface.font.id] ??= typeface.font.ref()
      pdf.addContent(
        `BT ${writtenColour(colour)} rg /${typeface.font.id} ${written(sizePoints)} Tf 1 0 0 -1 ${writtenAll(x, baseline)} Tm ${typeface.shown(text)} TJ ET`,
      )
    },
    rule: (x1, y1, x2, y2, width, colour) =>
      pdf.addContent(
        `${writtenColour(colour)} RG ${written(width)} w [] 0 d 0 J ${writtenAll(x1, y1)} m ${writtenAll(x2, y2)} l S`,
      ),
    leader: (from, until, baseline, colour) =>
      // Dots of all lines stand below each other: counted from the right.
      pdf.addContent(
        `${writtenColour(colour)} RG 0.8 w [0 3] 0 d 1 J ${writtenAll(until, baseline)} m ${writtenAll(from, baseline)} l S`,
      ),
    ground: (x, y, width, height, colour) =>
      pdf.addContent(`${writtenColour(colour)} rg ${writtenAll(x, y, width, height)} re f`),
    operators: (text) => pdf.addContent(text),
    opacity: (fill, stroke) => {
      const name = `O${Math.round(fill * 100)}x${Math.round(stroke * 100)}`
      let state = states.get(name)
      if (!state) {
        state = pdf.ref({ Type: 'ExtGState', ca: fill, CA: stroke })
        state.end()
        states.set(name, state)
      }
      pdf.page.ext_gstates[name] ??= state
      return name
    },
    closePage: close,
  }
}

/** An outline's operators. */
export function outlineOperators(outline: readonly Segment[]): string {
  return outline
    .map((one) => {
      if (one[0] === 'Z') return 'h'
      const [kind, ...places] = one
      return `${writtenAll(...places)} ${kind === 'M' ? 'm' : kind === 'L' ? 'l' : 'c'}`
    })
    .join(' ')
}
