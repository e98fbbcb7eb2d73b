export type SourceKind =
  | 'published'
  | 'reference software'
  | 'common practice, no published source'
  | 'from memory'

/** A number, or numbers and words in lists and mappings. */
export type PublishedValue =
  | number
  | string
  | boolean
  | null
  | readonly PublishedValue[]
  | { readonly [name: string]: PublishedValue }

/** A value from outside the project, and where it comes from. */
export interface PublishedRow {
  readonly id: string
  readonly quantity: string
  readonly unit: string
  readonly kind: SourceKind
  readonly source: string
  readonly note?: string
  readonly inputs: { readonly [name: string]: PublishedValue }
  readonly expected: PublishedValue
  /** Absolute, for each number or by name; `{ abs }` or `{ rel }` for all numbers of the row. */
  readonly tolerance: PublishedValue
}

/** Rows of one area, and what the project computes for each of them, with the functions that it really uses. */
export interface PublishedTable {
  readonly area: string
  readonly rows: readonly PublishedRow[]
  readonly computed: Readonly<Record<string, (inputs: PublishedInputs) => unknown>>
}

// biome-ignore lint/suspicious/noExplicitAny: each row states its own inputs.
export type PublishedInputs = any
