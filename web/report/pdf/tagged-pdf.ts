// What is used of the PDF library, its inner parts among it: its own types leave most of the structure tree out.

export interface Reference {
  readonly data: Record<string, unknown>
  buffer: Uint8Array[]
  finalize(): void
  end(chunk?: Uint8Array): void
}

/** An element of the structure tree (ISO 32000-1, 14.7.2). */
export interface StructureElement {
  readonly dictionary: Reference
  add(child: StructureElement | MarkedContent): StructureElement
}

export interface MarkedContent {
  readonly refs: readonly unknown[]
}

export interface OutlineItem {
  readonly outlineData: Record<string, unknown>
  addItem(title: string, options?: { expanded?: boolean }): OutlineItem
}

export interface Glyph {
  readonly id: number
  readonly advanceWidth: number
  readonly codePoints: readonly number[]
}

/** A font of the file, of which the glyphs that are used are embedded. */
export interface EmbeddedFont {
  readonly id: string
  readonly name: string
  readonly font: {
    readonly unitsPerEm: number
    readonly ascent: number
    readonly descent: number
    hasGlyphForCodePoint(codePoint: number): boolean
    layout(
      text: string,
      features?: Readonly<Record<string, boolean>>,
    ): { readonly glyphs: readonly Glyph[]; readonly positions: readonly { readonly xAdvance: number }[] }
    getGlyph(id: number): {
      readonly path: { readonly commands: readonly { command: string; args: readonly number[] }[] }
    }
  }
  readonly subset: { includeGlyph(id: number): number }
  readonly widths: number[]
  readonly unicode: (readonly number[])[]
  readonly scale: number
  ref(): Reference
}

export interface Page {
  readonly width: number
  readonly height: number
  readonly dictionary: Reference
  readonly fonts: Record<string, Reference>
  readonly ext_gstates: Record<string, Reference>
}

export interface TaggedPdf {
  page: Page
  push: (chunk: Uint8Array | null) => boolean
  readonly _root: Reference
  readonly _font: EmbeddedFont
  readonly outline: OutlineItem
  ref: (content?: unknown) => Reference
  endMetadata: () => void
  registerFont(name: string, bytes: Uint8Array): TaggedPdf
  font(name: string): TaggedPdf
  addPage(options: { size: readonly [number, number]; margin: number }): TaggedPdf
  addContent(operators: string): TaggedPdf
  struct(type: string, options?: { alt?: string; scope?: string }): StructureElement
  addStructure(element: StructureElement): TaggedPdf
  markStructureContent(tag: string): MarkedContent
  markContent(tag: 'Artifact', options: { type: string; attached?: readonly string[] }): TaggedPdf
  endMarkedContent(): TaggedPdf
  addNamedDestination(name: string, kind: 'XYZ', left: number | null, top: number, zoom: null): void
  goTo(
    left: number,
    top: number,
    width: number,
    height: number,
    name: string,
    options: Record<string, unknown>,
  ): TaggedPdf
  end(): void
}
