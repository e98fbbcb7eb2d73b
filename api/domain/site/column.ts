/**
 * What one column of a site table may hold. The reader (`read-site.ts`) turns cells into values by these,
 * so a heading, its meaning and its check stand in one place.
 */
export type Column = ColumnRule & {
  /** See `maybeAbsent`. */
  readonly mayBeAbsent?: true
}

type ColumnRule =
  | { readonly type: 'text'; readonly required: boolean; readonly means: string }
  | {
      readonly type: 'number'
      readonly required: boolean
      readonly means: string
      readonly min?: number
      readonly max?: number
      readonly whole?: boolean
    }
  | { readonly type: 'instant'; readonly required: boolean; readonly means: string }
  | { readonly type: 'flag'; readonly required: boolean; readonly means: string }
  | {
      readonly type: 'choice'
      readonly required: boolean
      readonly means: string
      readonly of: readonly string[]
    }
  /** The key of a row in another table. */
  | {
      readonly type: 'reference'
      readonly required: boolean
      readonly means: string
      readonly to: string
    }

type Filled<C> = C extends { type: 'number' | 'instant' }
  ? number
  : C extends { type: 'flag' }
    ? boolean
    : C extends { type: 'choice'; of: readonly (infer V)[] }
      ? V
      : string

/** The value a column yields: instants as UTC epoch milliseconds, an empty optional cell as null. */
export type Cell<C extends Column> = C extends { required: true } ? Filled<C> : Filled<C> | null

export type Columns = Readonly<Record<string, Column>>

type MayBeAbsent<C> = C extends { mayBeAbsent: true } ? true : false

/** A row's values; those of a column that may be absent need not be there. */
export type RowOf<T extends Columns> = {
  readonly [K in keyof T as MayBeAbsent<T[K]> extends true ? never : K]: Cell<T[K]>
} & {
  readonly [K in keyof T as MayBeAbsent<T[K]> extends true ? K : never]?: Filled<T[K]> | null
}

export interface Table<T extends Columns = Columns> {
  readonly file: string
  readonly means: string
  /** A folder without this file has no rows of it. */
  readonly optional?: true
  /** Headings that together name a row uniquely. */
  readonly key: readonly (keyof T & string)[]
  readonly columns: T
}

/** A table whose columns are not known to the compiler. */
export interface AnyTable {
  readonly file: string
  readonly optional?: true
  readonly key: readonly string[]
  readonly columns: Columns
}

export const text = (means: string) => ({ type: 'text', required: true, means }) as const
export const textOrNothing = (means: string) => ({ type: 'text', required: false, means }) as const
export const number = (means: string, range: { min?: number; max?: number; whole?: boolean } = {}) =>
  ({ type: 'number', required: true, means, ...range }) as const
export const numberOrNothing = (means: string, range: { min?: number; max?: number; whole?: boolean } = {}) =>
  ({ type: 'number', required: false, means, ...range }) as const
/** RFC 3339 with an offset or Z. */
export const instant = (means: string) => ({ type: 'instant', required: true, means }) as const
export const instantOrNothing = (means: string) => ({ type: 'instant', required: false, means }) as const
/** `yes` or `no`. */
export const flag = (means: string) => ({ type: 'flag', required: true, means }) as const
export const choice = <const V extends readonly string[]>(means: string, of: V) =>
  ({ type: 'choice', required: true, means, of }) as const
export const choiceOrNothing = <const V extends readonly string[]>(means: string, of: V) =>
  ({ type: 'choice', required: false, means, of }) as const
export const reference = (means: string, to: string) =>
  ({ type: 'reference', required: true, means, to }) as const
export const referenceOrNothing = (means: string, to: string) =>
  ({ type: 'reference', required: false, means, to }) as const

/**
 * A column that was asked for after folders were in use. A folder without it reads as one with empty cells, rows made
 * without it are whole, and where no row has anything in it, it is not written: folders stay as they were.
 */
export const maybeAbsent = <const C extends ColumnRule & { required: false }>(column: C) =>
  ({ ...column, mayBeAbsent: true }) as const

export const table = <const T extends Columns>(definition: Table<T>): Table<T> => definition
