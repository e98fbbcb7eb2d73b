import type { Block, Caution, Figure, Heading, ReportDocument, Table } from './document.ts'

/** Blocks with the numbers that both writers print and the anchors that links lead to. */
export type NumberedBlock =
  | (Heading & { readonly number: string; readonly anchor: string })
  | NumberedTable
  | NumberedFigure
  | { readonly block: 'figure-pair'; readonly figures: readonly [NumberedFigure, NumberedFigure] }
  | Caution
  | Extract<Block, { readonly block: 'paragraph' | 'list' | 'page-break' }>

export interface NumberedTable extends Table {
  readonly number: number
  readonly anchor: string
}

export interface NumberedFigure extends Figure {
  readonly number: number
  readonly anchor: string
  /** The table that says the same in numbers. */
  readonly standsFor: { readonly number: number; readonly anchor: string } | null
}

export interface NumberedDocument {
  readonly statement: readonly NumberedBlock[]
  readonly blocks: readonly NumberedBlock[]
}

/**
 * Numbers headings (1, 1.1, 1.1.1), tables and figures in their order; headings of the statement have none. A level
 * left out, and a figure whose table is not there, are mistakes of who composed the report.
 */
export function numbered(document: ReportDocument): NumberedDocument {
  const counts = { table: 0, figure: 0, heading: 0 }
  const levels = [0, 0, 0]
  const tables = new Map<string, { number: number; anchor: string }>()
  for (const block of [...document.statement, ...document.blocks])
    if (block.block === 'table') {
      const number = ++counts.table
      if (block.id === undefined) continue
      if (tables.has(block.id)) throw new Error(`Two tables of the report are called ${block.id}.`)
      tables.set(block.id, { number, anchor: `table-${number}` })
    }
  counts.table = 0

  const figureOf = (figure: Figure): NumberedFigure => {
    const number = ++counts.figure
    const standsFor = figure.tableId === null ? null : tables.get(figure.tableId)
    if (standsFor === undefined) throw new Error(`No table of the report is called ${figure.tableId}.`)
    return { ...figure, number, anchor: `figure-${number}`, standsFor }
  }
  const blockOf = (block: Block, isNumbered: boolean): NumberedBlock => {
    if (block.block === 'table') {
      const number = ++counts.table
      return { ...block, number, anchor: `table-${number}` }
    }
    if (block.block === 'figure') return figureOf(block)
    if (block.block === 'figure-pair')
      return { block: 'figure-pair', figures: [figureOf(block.figures[0]), figureOf(block.figures[1])] }
    if (block.block !== 'heading') return block
    const anchor = `heading-${++counts.heading}`
    if (!isNumbered) return { ...block, number: '', anchor }
    if (block.level > 1 && levels[block.level - 2] === 0)
      throw new Error(`The heading “${block.text}” leaves out a level above it.`)
    levels[block.level - 1] = (levels[block.level - 1] ?? 0) + 1
    levels.fill(0, block.level)
    return { ...block, number: levels.slice(0, block.level).join('.'), anchor }
  }
  const statement = document.statement.map((block) => blockOf(block, false))
  return { statement, blocks: document.blocks.map((block) => blockOf(block, true)) }
}
