import type { Paper } from '#domain/report/report.ts'
import type { Mark } from '../views/marks/mark.ts'

/**
 * A report as it is composed, before anybody knows of pages: words, tables and drawings in their order. Writers
 * number headings, tables and figures, make the list of contents, and write it as a page for a browser or as
 * PDF. Every text is already in words (values with their units, instants in the site's time): writers format
 * nothing, so that both say the same.
 */
export interface ReportDocument {
  /** As on the title page: 'Weekly report 7'. */
  readonly title: string
  /** Language of every text, BCP 47: 'en-GB'. */
  readonly language: string
  readonly paper: Paper
  readonly facts: ReportFacts
  /** The engineer's own statement: stands first, before contents and everything else. */
  readonly statement: readonly Block[]
  readonly blocks: readonly Block[]
  /** The date that the files carry: of the record, never of the clock, so that the same report is the same bytes. */
  readonly datedEpochMs: number
}

/** What the title page says, and the head and foot of every page repeat. */
export interface ReportFacts {
  readonly site: string
  /** Kind and number in words, repeated in the head of every page: 'Weekly report 7'. */
  readonly number: string
  /** 'Monday 2 to Sunday 8 March 2026'. */
  readonly period: string
  /** 'Data received until 8 March 2026 18:00 UTC'. */
  readonly cutOff: string
  /** '12 % of the readings shown are provisional'. */
  readonly provisionalShare: string
  /** Who says the statement, and when it was signed. */
  readonly statementBy: string
  /** Of a site that is invented or practised on: across every page; null for a true one. */
  readonly watermark: string | null
  readonly software: string
  /** Further lines of the title page. */
  readonly more: readonly { readonly name: string; readonly value: string }[]
}

/** Words of one line of thought; runs that weigh more are told apart. */
export type Words = string | readonly (string | { readonly strong: string })[]

export type Block =
  | Heading
  | { readonly block: 'paragraph'; readonly words: Words }
  | { readonly block: 'list'; readonly ordered: boolean; readonly entries: readonly Words[] }
  | Table
  | Figure
  | FigurePair
  | Caution
  | { readonly block: 'page-break' }

export interface Heading {
  readonly block: 'heading'
  readonly level: 1 | 2 | 3
  readonly text: string
}

/** A box that nobody reads past: what not to conclude. */
export interface Caution {
  readonly block: 'caution'
  readonly heading: string
  readonly words: readonly Words[]
}

export interface Table {
  readonly block: 'table'
  /** By which a figure names the table that stands for it; unique in the report. */
  readonly id?: string
  readonly caption: string
  readonly columns: readonly TableColumn[]
  readonly rows: readonly TableRow[]
  readonly notes?: readonly string[]
  /** Over the whole breadth of the sheet where a sheet (A3) has two columns of text. */
  readonly wide?: boolean
}

export interface TableColumn {
  readonly head: string
  /** Said in the header cell, below the head: 'mm'. */
  readonly unit?: string
  /** `decimal`: numbers stand with their decimal points below each other. */
  readonly align?: 'text' | 'decimal' | 'centre'
  /** Its cells are the headers of their rows. Where no column is, the first is. */
  readonly rowHeader?: boolean
}

/** A row of cells, as many as there are columns; or words over all columns that head the rows below. */
export type TableRow = readonly Words[] | { readonly over: string }

/** What a pure scene needs to know of the room that it is drawn in. */
export interface FigureRoom {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
}

export const figureScopes = ['section', 'time-history', 'depth-profile', 'figure', 'plan-figure'] as const
/** Which view's styles its marks are drawn with: the class of that view's element on screen. */
export type FigureScope = (typeof figureScopes)[number]

export interface Figure {
  readonly block: 'figure'
  readonly caption: string
  /** The figure in words, for who cannot see it: what is shown, and what is to be seen in it. */
  readonly alternative: string
  readonly scope: FigureScope
  /** The marks for a room of that size: pure, drawn as often as wanted. */
  readonly scene: (room: FigureRoom) => readonly Mark[]
  /** Breadth to height, 0.4 to 6. */
  readonly aspect: number
  /** Id of the table that says the same in numbers; null: none does, and the alternative must. */
  readonly tableId: string | null
  readonly wide?: boolean
}

/** Two figures side by side, alike in height. */
export interface FigurePair {
  readonly block: 'figure-pair'
  readonly figures: readonly [Figure, Figure]
}

export const heading = (level: Heading['level'], text: string): Heading => ({ block: 'heading', level, text })

export const paragraph = (words: Words): Block => ({ block: 'paragraph', words })

export const list = (entries: readonly Words[], ordered = false): Block => ({
  block: 'list',
  ordered,
  entries,
})
