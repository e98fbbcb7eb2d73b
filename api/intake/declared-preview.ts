import type { Layout } from '#contract/layout.ts'
import type { LayoutProposal } from '#contract/layout-proposal.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { previewRows } from './preview-rows.ts'
import { type FileHead, rowsOfHead } from './read-head.ts'

/** The first rows of a file under a declared layout that fits it: as they will be taken, nothing of them guessed. */
export function declaredPreview(
  layout: Layout,
  head: FileHead,
  model: SiteModel,
): Pick<LayoutProposal, 'names' | 'preview' | 'summary' | 'zoneAssumed' | 'doubts'> {
  const rows = rowsOfHead(head, layout.encoding, layout.delimiter)
  const names = rows.find(({ line }) => line === layout.namesRow)?.cells ?? null
  const body = rows.filter(({ line }) => line > layout.headerRows)
  return {
    names: [...(names ?? [])],
    preview: previewRows(layout, names, body, model),
    summary: `The file fits the declared layout “${layout.title}”, version ${layout.version}, and is read under it: times as ${layout.time.pattern} in ${layout.time.zone}.`,
    zoneAssumed: false,
    doubts: [],
  }
}
