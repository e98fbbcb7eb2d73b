import { zlibSync } from 'fflate'
import PDFDocument from 'pdfkit'
import type { ReportDocument } from '../document.ts'
import { escapeMarkup } from '../html/escape.ts'
import type { Reference, TaggedPdf } from './tagged-pdf.ts'

/** A PDF file that is being written: what comes out depends on what goes in alone, in Node and in a browser. */
export interface OpenPdf {
  readonly pdf: TaggedPdf
  readonly close: () => Uint8Array
}

/**
 * Opens a PDF 1.7 file with a structure tree, its language and title. Its dates are the report's own, its file
 * identifier is counted from them, and every stream is compressed by the same code wherever it is written: the
 * library itself takes another compressor in Node than in a browser.
 */
export function openPdf(document: ReportDocument): OpenPdf {
  const dated = new Date(document.datedEpochMs)
  const producer = `Stillground ${document.facts.software}`
  const title = `${document.facts.site}: ${document.title}`
  const pdf = new PDFDocument({
    pdfVersion: '1.7',
    tagged: true,
    lang: document.language,
    displayTitle: true,
    autoFirstPage: false,
    compress: false,
    font: null as unknown as string,
    info: {
      Producer: producer,
      Creator: producer,
      Title: title,
      Author: document.facts.statementBy,
      CreationDate: dated,
      ModDate: dated,
    },
  }) as unknown as TaggedPdf
  // The library sorts names by the language of the machine; the format wants them by their bytes (ISO 32000-1, 7.9.6).
  const { Dests: destinations } = (pdf._root.data.Names as { readonly data: NameTrees }).data
  destinations._compareKeys = (one, other) => (one < other ? -1 : one > other ? 1 : 0)
  // The library wrote these bytes when it was made, before anybody could take them.
  const chunks: Uint8Array[] = [latin1('%PDF-1.7\n%\u00ff\u00ff\u00ff\u00ff\n')]
  pdf.push = (chunk) => {
    if (chunk !== null) chunks.push(chunk)
    return true
  }
  const plainRef = pdf.ref.bind(pdf)
  pdf.ref = (content) => compressed(plainRef(content))
  pdf.endMetadata = () => {
    const described = plainRef({ Type: 'Metadata', Subtype: 'XML' })
    described.end(
      new TextEncoder().encode(
        packetOf(title, document.facts.statementBy, producer, dated, document.language),
      ),
    )
    pdf._root.data.Metadata = described
  }
  pdf._root.data.PageLabels = { Nums: [0, { S: 'D' }] }
  return {
    pdf,
    close: () => {
      pdf.end()
      return joined(chunks)
    },
  }
}

interface NameTrees {
  readonly Dests: { _compareKeys: (one: string, other: string) => number }
}

/** Small streams stay as they are: compressing them gains nothing. */
function compressed(reference: Reference): Reference {
  const finalize = reference.finalize.bind(reference)
  reference.finalize = () => {
    if (reference.buffer.length > 0 && !reference.data.Filter) {
      const plain = joined(reference.buffer)
      if (plain.length > 200) {
        reference.buffer = [zlibSync(plain, { level: 6 })]
        reference.data.Filter = 'FlateDecode'
      }
    }
    finalize()
  }
  return reference
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0))
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.length
  }
  return whole
}

const latin1 = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0))

/** The file described in XMP (ISO 16684-1), which says the same as its information dictionary. */
function packetOf(title: string, author: string, producer: string, dated: Date, language: string): string {
  const at = `${dated.toISOString().slice(0, 19)}Z`
  const [said, by, made] = [title, author, producer].map(escapeMarkup)
  return `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">${said}</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>${by}</rdf:li></rdf:Seq></dc:creator>
<dc:language><rdf:Bag><rdf:li>${escapeMarkup(language)}</rdf:li></rdf:Bag></dc:language>
<xmp:CreateDate>${at}</xmp:CreateDate><xmp:ModifyDate>${at}</xmp:ModifyDate><xmp:CreatorTool>${made}</xmp:CreatorTool>
<pdf:Producer>${made}</pdf:Producer>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>`
}
