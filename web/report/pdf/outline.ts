import type { NumberedDocument } from '../numbered.ts'
import type { OutlineItem, TaggedPdf } from './tagged-pdf.ts'

/** Bookmarks of the headings as they are drawn: returns what is told each anchor and its height on the open page. */
export function drawOutline(
  pdf: TaggedPdf,
  { statement, blocks }: NumberedDocument,
): (anchor: string, y: number) => void {
  const headings = new Map(
    [...statement, ...blocks].flatMap((block) =>
      block.block === 'heading' ? [[block.anchor, block] as const] : [],
    ),
  )
  const holders: (OutlineItem | undefined)[] = [pdf.outline]
  const add = (level: number, title: string, y: number) => {
    const holder = holders.slice(0, level).findLast(Boolean) ?? pdf.outline
    const bookmark = holder.addItem(title, { expanded: level === 1 })
    bookmark.outlineData.Dest = [
      pdf.page.dictionary,
      'XYZ',
      null,
      Math.round(pdf.page.height - Math.max(0, y - 10)),
      null,
    ]
    holders.length = level
    holders[level] = bookmark
  }
  return (anchor, y) => {
    const heading = headings.get(anchor)
    if (heading)
      add(heading.level, heading.number === '' ? heading.text : `${heading.number} ${heading.text}`, y)
    else if (anchor === 'contents') add(1, 'Contents', y)
  }
}
